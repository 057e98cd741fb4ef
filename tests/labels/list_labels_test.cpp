// Which ends get a label, in which order, and what each says. Which conductors are marked at each end: FAA AC 43.13-1B
// 11-208 and EN 60204-1 13.2.1; that a label says first where its own end lands is common practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/command/examine.h"
#include "loomleaf/plan/plan.h"
#include "loomleaf/takeoff/labels.h"
#include "support/installed_templates.h"

namespace loomleaf {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

// A plan read from its text, with devices said to protect conductors as the study would say it.
struct Listed {
  Plan plan;
  std::vector<Label> labels;

  explicit Listed(const std::string& text, const std::map<std::string, std::vector<std::string>>& protected_by = {}) {
    const SourceText source("test.loom", text);
    PlanReading reading = build_plan(read_document(source), source, {});
    for (const Complaint& complaint : reading.complaints) ADD_FAILURE() << to_text(complaint, source);
    plan = std::move(reading.plan);
    Study study;
    study.protection.conductors = IndexedList<ConductorOf, ConductorProtection>(plan.conductors.size());
    for (const ConductorId id : plan.conductors.ids())
      if (const auto found = protected_by.find(plan.conductors[id].id); found != protected_by.end())
        for (const ItemId item : plan.items.ids())
          for (const std::string& device : found->second)
            if (plan.items[item].id == device) study.protection.conductors[id].protected_by.push_back(item);
    labels = list_labels(plan, Circuit{}, study, installed_stock());
  }

  std::vector<std::string> names() const {
    std::vector<std::string> names;
    for (const Label& label : labels)
      names.push_back(label.id + (label.is_sheath ? " sheath" : "") + (label.at_from_end ? " from" : " to"));
    return names;
  }
};

constexpr const char* kItems =
    "system 12 V\nsource BAT 12.8 V\nfuse F1 5 A blade\nfuse F2 10 A blade\nfuse F3 15 A blade\nbus NB 100 A\n"
    "load LA1 3 W\nload LA2 3 W\n";

TEST(ListLabels, BothEndsOfAWireStandSideBySide) {
  const Listed listed(std::string(kItems) + "wire W1 BAT+ to F1 18 AWG red 1 m\nwire W2 F1 to LA1+ 18 AWG red 2 m\n");
  EXPECT_THAT(listed.names(), ElementsAre("W1 from", "W1 to", "W2 from", "W2 to"));
}

TEST(ListLabels, EachEndSaysWhereItLandsAndWhereTheOtherGoes) {
  const Listed listed(std::string(kItems) + "wire W1 BAT+ to F1 18 AWG red 1 m\n");
  ASSERT_EQ(listed.labels.size(), 2u);
  EXPECT_EQ(listed.labels[0].lands_at, "BAT+");
  EXPECT_EQ(listed.labels[0].far_end, "F1.in");
  EXPECT_EQ(listed.labels[1].lands_at, "F1.in");
  EXPECT_EQ(listed.labels[1].far_end, "BAT+");
  EXPECT_EQ(listed.labels[0].size, "18 AWG RD");
}

TEST(ListLabels, TwoCoresThatStayTogetherShareTheirSheathsLabel) {
  const Listed listed(std::string(kItems) + "cable C1 LA1 to LA2 18 AWG cores red, black 2 m\n");
  EXPECT_THAT(listed.names(), ElementsAre("C1 sheath from", "C1 sheath to"));
  EXPECT_EQ(listed.labels[0].lands_at, "LA1");
  EXPECT_EQ(listed.labels[0].far_end, "LA2");
  EXPECT_EQ(listed.labels[0].size, "2x18 AWG");
}

TEST(ListLabels, CoresThatPartAtOneEndAreLabelledEach) {
  const Listed listed(std::string(kItems) + "cable C1 F1, NB to LA1 18 AWG cores red, black 2 m\n");
  EXPECT_THAT(listed.names(), ElementsAre("C1 sheath from", "C1 sheath to", "C1.red from", "C1.red to", "C1.black from",
                                          "C1.black to"));
  EXPECT_EQ(listed.labels[0].lands_at, "F1, NB");
  EXPECT_EQ(listed.labels[2].lands_at, "F1.out");
  EXPECT_EQ(listed.labels[2].size, "18 AWG RD");
  EXPECT_EQ(listed.labels[4].lands_at, "NB");
}

TEST(ListLabels, MoreThanTwoCoresAreLabelledEachThoughTheyStayTogether) {
  const Listed listed("system 12 V\nconnector X1 3 poles\nconnector X2 3 poles\ncable C1 X1 to X2 18 AWG 2 m\n");
  EXPECT_EQ(listed.labels.size(), 2u + 3u * 2u);
}

TEST(ListLabels, FuseIsNamedWithItsRating) {
  const Listed listed(std::string(kItems) + "wire W1 F1 to LA1+ 18 AWG red 1 m\n", {{"W1", {"F1"}}});
  EXPECT_EQ(listed.labels[0].fuse, "F1 5 A");
}

TEST(ListLabels, WireThatNothingProtectsNamesNoFuse) {
  EXPECT_EQ(Listed(std::string(kItems) + "wire W1 BAT+ to F1 18 AWG red 1 m\n").labels[0].fuse, "");
}

TEST(ListLabels, LimitedSourceIsNoFuseToLookFor) {
  const Listed listed(
      "system 12 V\nsource SOL solar 14 V limit 15 A\nfuse F1 20 A blade\nwire W1 SOL+ to F1 10 AWG red 1 m\n",
      {{"W1", {"SOL", "F1"}}});
  EXPECT_EQ(listed.labels[0].fuse, "F1 20 A");
}

TEST(ListLabels, ManyFusesAreCounted) {
  const Listed listed(std::string(kItems) + "wire W1 NB to BAT- 6 AWG black 1 m\n", {{"W1", {"F1", "F2", "F3"}}});
  EXPECT_EQ(listed.labels[0].fuse, "F1 5 A, F2 10 A and 1 more");
}

TEST(ListLabels, SheathNamesTheFusesOfItsCoresOnce) {
  const Listed listed(std::string(kItems) + "cable C1 F1, NB to LA1 18 AWG cores red, black 2 m\n",
                      {{"C1.red", {"F1"}}, {"C1.black", {"F1"}}});
  EXPECT_EQ(listed.labels[0].fuse, "F1 5 A");
}

TEST(ListLabels, RunsAreInOrderOfThePlaceTheyArePulledFromThoseWithoutOneLast) {
  const Listed listed(
      "system 12 V\nplace A \"Locker\"\nplace B \"Roof\"\nleg A to B 2 m\nsource BAT 12.8 V at A\nfuse F1 5 A blade at "
      "A\nload LA1 3 W at B\nload LA2 3 W\nload LA3 3 W\nwire W0 LA2+ to LA3+ 18 AWG red 1 m\n"
      "wire W1 LA1+ to LA2+ 18 AWG red 1 m\nwire W2 F1 to LA1+ 18 AWG red 3 m\nwire W3 BAT+ to F1 18 AWG red 0.2 m\n");
  EXPECT_THAT(listed.names(),
              ElementsAre("W2 from", "W2 to", "W3 from", "W3 to", "W1 from", "W1 to", "W0 from", "W0 to"));
  EXPECT_EQ(listed.labels[0].place, "A");
  EXPECT_EQ(listed.labels[1].place, "B");
  EXPECT_EQ(listed.labels.back().place, "");
}

TEST(ListLabels, RunThatStartsNowherePulledFromWhereItEnds) {
  const Listed listed(
      "system 12 V\nplace A \"Locker\"\nplace B \"Roof\"\nleg A to B 2 m\nsource BAT 12.8 V at A\nfuse F1 5 A blade at "
      "B\nload LA1 3 W\nwire W1 F1 to LA1+ 18 AWG red 3 m\nwire W2 LA1- to BAT- 18 AWG red 0.2 m\n");
  EXPECT_THAT(listed.names(), ElementsAre("W2 from", "W2 to", "W1 from", "W1 to"));
}

TEST(ListLabels, RunsOfOneCircuitArePulledTogether) {
  const SourceText source(
      "test.loom",
      "system 12 V rules rv\nplace A \"Locker\"\nplace B \"Roof\"\nleg A to B 2 m\n"
      "source BAT 12.8 V 7 Ah at A\nbus PB 50 A at A\nfuse F0 20 A blade at A\nfuse F1 5 A blade on PB\n"
      "fuse F2 5 A blade on PB\nload LA1 3 W at B\nload LA2 3 W at B\n"
      "wire W1 F2 to LA2+ 18 AWG red\nwire W2 F1 to LA1+ 18 AWG red\n"
      "wire W3 LA2- to BAT- 18 AWG black\nwire W4 LA1- to BAT- 18 AWG black\n"
      "wire W5 BAT+ to F0 12 AWG red 0.2 m\nwire W6 F0 to PB 12 AWG red 0.2 m\n");
  const Examination seen = examine(source, installed_templates());
  ASSERT_TRUE(seen.understood());
  std::vector<std::string> order;
  for (const Label& label : list_labels(seen.plan, seen.circuit, seen.study, seen.stock))
    if (label.at_from_end) order.push_back(label.id + " " + label.circuit);
  // From the locker what serves all, then circuit by circuit; then what is pulled from the roof.
  EXPECT_THAT(order, ElementsAre("W5 ", "W6 ", "W2 F1", "W1 F2", "W4 F1", "W3 F2"));
}

TEST(ListLabels, DiameterIsThatOfTheStocksInsulatedWire) {
  const Listed listed(std::string(kItems) + "wire W1 BAT+ to F1 18 AWG red 1 m\ncable C1 F1, NB to LA1 2x16 AWG 2 m\n");
  ASSERT_TRUE(listed.labels[0].outside && listed.labels[2].outside);
  EXPECT_DOUBLE_EQ(listed.labels[0].outside->widest.in(millimetres), 2.5);  // UL 1426 boat cable, from memory
  EXPECT_DOUBLE_EQ(listed.labels[2].outside->widest.in(millimetres), 6.9);  // its flat two-core kin, from memory
  EXPECT_LT(listed.labels[2].outside->girth, listed.labels[2].outside->widest);
  EXPECT_DOUBLE_EQ(listed.labels[4].outside->widest.in(millimetres), 3.0);  // the core that parts
}

TEST(ListLabels, SizeWithoutATwoCoreCableHasNoDiameterOfItsSheath) {
  const Listed listed(std::string(kItems) + "cable C1 F1, NB to LA1 2x4 AWG 2 m\n");
  EXPECT_FALSE(listed.labels[0].outside);
  EXPECT_TRUE(listed.labels[2].outside);
}

TEST(ListLabels, SignalWithoutASizeStillHasItsLabels) {
  const Listed listed(std::string(kItems) + "wire W1 NB to LA1- signal blue 1 m\n");
  ASSERT_EQ(listed.labels.size(), 2u);
  EXPECT_EQ(listed.labels[0].size, "BU");
}

TEST(ListLabels, PlanWithoutConductorsHasNone) { EXPECT_THAT(Listed(kItems).labels, IsEmpty()); }

}  // namespace
}  // namespace loomleaf
