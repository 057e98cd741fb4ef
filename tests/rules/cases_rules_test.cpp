// What the cases beside the plain load case bring to findings: loads while a battery is charged from another, heaters
// at the highest voltage, and what is asked for where the voltage breaks down.
#include <fmt/format.h>
#include <gmock/gmock.h>

#include <set>

#include "rules/support/examined.h"

namespace loomleaf::test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

// What is over its rating at this rating; the test's own plans give it once.
struct Rated {
  std::string rule, subject;
  std::string (*plan)(double rating);
  std::string in_case;
};

class OfACase : public testing::TestWithParam<Rated> {
 protected:
  static std::vector<Finding> of_subject(double rating) {
    std::vector<Finding> found;
    for (Finding& finding : findings_of(GetParam().rule, GetParam().plan(rating)))
      if (finding.subjects[0] == GetParam().subject) found.push_back(std::move(finding));
    return found;
  }
};

TEST_P(OfACase, SpeaksBelowWhatFlowsAndIsSilentAboveIt) {
  const auto far_over = of_subject(1.0);
  ASSERT_EQ(far_over.size(), 1u);
  EXPECT_THAT(far_over[0].message, HasSubstr("case `" + GetParam().in_case + "`"));
  // A fuse of another rating has another resistance: what flows near the limit.
  double is = far_over[0].values->is;
  for (const double share : {0.9, 0.995}) {
    const auto near = of_subject(share * is);
    ASSERT_EQ(near.size(), 1u);
    is = near[0].values->is;
  }
  EXPECT_EQ(of_subject(is - 0.02).size(), 1u);
  EXPECT_THAT(of_subject(is + 0.02), IsEmpty());
}

// 240 W on a battery that charges a second one at the same time: 20 A and 14.4 V x 15 A / 0.9 / 12 V = 20 A.
std::string charging(const std::string& main, const std::string& joints) {
  return R"(
system 12 V rules marine drop 10 %
default wire insulation 105 C
source A 12.8 V low 12.0 V 100 Ah short-circuit 900 A )" +
         main + R"(
source T 12.8 V low 12.2 V 100 Ah max 60 A short-circuit 900 A
bus NB 100 A 6 ways
load H 20 A constant-current
converter CV in 12 V out 14.4 V 15 A efficiency 90 %
wire W4 H- to NB 6 AWG black 0.5 m
wire W5 CV.in- to NB 6 AWG black 0.5 m
wire W6 NB to A- 6 AWG black 0.5 m
fuse F3 30 A class-t on T+
wire W8 CV.out+ to F3 8 AWG red 0.5 m
wire W9 CV.out- to T- 8 AWG black 0.5 m
)" + joints;
}
const std::string to_bus = R"(
wire W1 F0 to PB 6 AWG red 0.1 m
wire W2 PB to H+ 6 AWG red 0.1 m
wire W3 PB to CV.in+ 6 AWG red 0.1 m
)";

INSTANTIATE_TEST_SUITE_P(
    LoadAndCharge, OfACase,
    testing::Values(Rated{"overloaded-source", "A",
                          [](double rating) {
                            return charging(fmt::format("max {} A", rating),
                                            "fuse F0 60 A class-t on A+\nbus PB 100 A 4 ways" + to_bus);
                          },
                          "load+charge"},
                    Rated{"overloaded-bus", "PB",
                          [](double rating) {
                            return charging(
                                "max 100 A",
                                fmt::format("fuse F0 60 A class-t on A+\nbus PB {} A 4 ways", rating) + to_bus);
                          },
                          "load+charge"},
                    Rated{"overloaded-splice", "PB",
                          [](double rating) {
                            return charging(
                                "max 100 A",
                                fmt::format("fuse F0 60 A class-t on A+\nsplice PB 3 ways {} A", rating) + to_bus);
                          },
                          "load+charge"},
                    Rated{"overloaded-contact", "S0",
                          [](double rating) {
                            return charging("max 100 A",
                                            fmt::format("fuse F0 60 A class-t on A+\nswitch S0 {} A\nbus PB 100 A\n"
                                                        "wire W0 F0 to S0 6 AWG red 0.1 m\n"
                                                        "wire W1 S0 to PB 6 AWG red 0.1 m\n"
                                                        "wire W2 PB to H+ 6 AWG red 0.1 m\n"
                                                        "wire W3 PB to CV.in+ 6 AWG red 0.1 m\n",
                                                        rating));
                          },
                          "load+charge"}));

// 234 W at 12 V, which are 19.5 A there and 23.4 A at 14.4 V; 11.8 V is what the load case has.
std::string heating(const std::string& main, const std::string& joints) {
  return R"(
system 12 V rules marine drop 10 %
default wire insulation 105 C
source A 12.8 V low 11.8 V high 14.4 V 100 Ah short-circuit 900 A )" +
         main + R"(
load H 234 W resistive
wire W3 H- to A- 6 AWG black 0.1 m
)" + joints;
}

INSTANTIATE_TEST_SUITE_P(
    HighestVoltage, OfACase,
    testing::Values(Rated{"overloaded-source", "A",
                          [](double rating) {
                            return heating(fmt::format("max {} A", rating),
                                           "fuse F0 60 A class-t on A+\nwire W1 F0 to H+ 6 AWG red 0.1 m\n");
                          },
                          "load highest"},
                    Rated{"overloaded-bus", "PB",
                          [](double rating) {
                            return heating("max 100 A", fmt::format("fuse F0 60 A class-t on A+\nbus PB {} A\n"
                                                                    "wire W1 F0 to PB 6 AWG red 0.1 m\n"
                                                                    "wire W2 PB to H+ 6 AWG red 0.1 m\n",
                                                                    rating));
                          },
                          "load highest"},
                    Rated{"overloaded-contact", "X",
                          [](double rating) {
                            return heating("max 100 A",
                                           fmt::format("fuse F0 60 A class-t on A+\nconnector X 2 poles {} A\n"
                                                       "wire W1 F0 to X.in1 6 AWG red 0.1 m\n"
                                                       "wire W2 X.out1 to H+ 6 AWG red 0.1 m\n",
                                                       rating));
                          },
                          "load highest"},
                    Rated{"fuse-too-small", "F0",
                          [](double rating) {
                            return heating(
                                "max 100 A",
                                fmt::format("fuse F0 {} A class-t on A+\nwire W1 F0 to H+ 6 AWG red 0.1 m\n", rating));
                          },
                          "load highest"}));

TEST(FuseTooSmallOfACase, CountsChargingOneAndAQuarterTimesBesideTheLoads) {
  // 20 A, and some 20 A that last: 40 A at once, 45 A held against the rating
  const auto plan = [](int rating) {
    return charging("max 100 A", fmt::format("fuse F0 {} A class-t on A+\nbus PB 100 A 4 ways", rating) + to_bus);
  };
  const auto findings = findings_of("fuse-too-small", plan(43));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subjects[0], "F0");
  EXPECT_NEAR(findings[0].values->is, 45.0, 0.3);
  EXPECT_THAT(findings[0].message, HasSubstr("(case `load+charge`)"));
  EXPECT_FALSE(fires("fuse-too-small", plan(46)));
}

TEST(OverloadedWireOfACase, CountsLoadsAndChargingTogether) {
  // 14 AWG of 105 C: 35 A (33 CFR 183 as the rulebook has it); 20 A and 20 A
  const std::string plan = charging("max 100 A",
                                    "fuse F0 60 A class-t on A+\nbus PB 100 A 4 ways\n"
                                    "wire W1 F0 to PB 14 AWG red 0.1 m\nwire W2 PB to H+ 6 AWG red 0.1 m\n"
                                    "wire W3 PB to CV.in+ 6 AWG red 0.1 m\n");
  const auto findings = findings_of("overloaded-wire", plan);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subjects[0], "W1");
  EXPECT_THAT(findings[0].message, HasSubstr("(case `load+charge`)"));
}

// 20 A over 2.2 m out and back drop some 2 %; with the 20 A of the charger over the same wires it would be 4 %.
TEST(LoadAndCharge, SaysNothingOfDropAndLowVoltage) {
  const std::string joints =
      "fuse F0 60 A class-t on A+\nbus PB 100 A 4 ways\nwire W1 F0 to PB 6 AWG red 4 m\n"
      "wire W2 PB to H+ 6 AWG red 0.1 m\nwire W3 PB to CV.in+ 6 AWG red 0.1 m\n";
  std::string plan = charging("max 100 A", joints);
  plan.replace(plan.find("drop 10 %"), 9, "drop 3 %");
  EXPECT_FALSE(fires("voltage-drop", plan));
  EXPECT_FALSE(fires("low-voltage", plan));
}

// A main of 10 AWG that a load asks for 75 A and a starter for more, so that both break down.
std::string asked(const std::string& more) {
  return R"(
system 12 V rules marine
default wire insulation 105 C
source B 12.8 V low 12 V 100 Ah max 300 A short-circuit 3 kA
bus PB, N 300 A 6 ways
wire W1 B+ to PB 10 AWG red 0.1 m
fuse F1 90 A midi on PB
load L1 900 W
wire WL F1 to L1+ 4 AWG red 30 m
wire WM L1- to N 4 AWG black 30 m
wire W3 N to B- 10 AWG black 0.1 m
)" + more;
}

TEST(OverloadedWireOfACase, WhatIsAskedForAllDayIsNotMaskedByAStarter) {
  const std::string starter =
      "load ST 1200 W starter\nwire WS PB to ST+ 4 AWG red 30 m\nwire WT ST- to N 4 AWG black 30 m\n";
  for (const std::string& more : {std::string(), starter}) {
    const auto findings = findings_of("overloaded-wire", asked(more));
    ASSERT_EQ(findings.size(), 2u) << more;
    EXPECT_EQ(findings[0].subjects[0], "W1");
    EXPECT_EQ(findings[1].subjects[0], "W3");
    EXPECT_NEAR(findings[0].values->is, 75.0, 1e-6);
  }
}

// Each bank charges the next: what one charger gives a bank must not hide what the other takes there, however many
// stand in the ring.
std::string ring_of_chargers(int count) {
  std::string text = "system 12 V rules marine\n";
  for (int i = 0; i < count; ++i)
    text += fmt::format(
        "source B{0} 12.8 V 100 Ah max 400 A short-circuit 3 kA\nfuse M{0} 40 A class-t\nbus P{0} 300 A 9 ways\n"
        "converter C{0} in 12 V out 14.4 V 40 A\nwire X{0} B{0}+ to M{0} 4 AWG red 100 mm\n"
        "wire Y{0} M{0} to P{0} 4 AWG red 1 m\nwire A{0} P{0} to C{0}.in+ 4 AWG red 1 m\n"
        "wire D{0} C{0}.in- to B{0}- 4 AWG black 1 m\nwire E{0} C{0}.out+ to P{1} 4 AWG red 1 m\n"
        "wire H{0} C{0}.out- to B{1}- 4 AWG black 1 m\n",
        i, (i + 1) % count);
  return text;
}

TEST(FuseTooSmall, IsToldOfEachBankInARingOfChargers) {
  for (const int count : {2, 3, 4, 5}) {
    std::set<std::string> mains;
    for (const Finding& finding : findings_of("fuse-too-small", ring_of_chargers(count)))
      mains.insert(finding.subjects[0]);
    EXPECT_EQ(mains.size(), static_cast<std::size_t>(count));
  }
}

// While a battery is charged from this one it is charged itself: the drop is judged without.
TEST(VoltageDrop, IsNotJudgedWhileAConverterChargesNotEvenOfACircuitInFull) {
  const auto plan = [](const char* use) {
    return fmt::format(R"(
system 12 V rules marine
source BAT 12.8 V low 12.0 V 100 Ah max 200 A short-circuit 2 kA
source B2 12.8 V low 12.0 V 100 Ah max 200 A short-circuit 2 kA
fuse F1, F2 40 A class-t
bus PB, NB 100 A 12 ways
load LA 24 W {}
converter CV in 12 V out 14.4 V 20 A
wire W1 BAT+ to F1 8 AWG red 100 mm
wire W2 F1 to PB 8 AWG red 4 m
wire W3 PB to LA+ 14 AWG red 0.5 m
wire W4 LA- to NB 14 AWG black 0.5 m
wire W5 PB to CV.in+ 8 AWG red 0.3 m
wire W6 CV.in- to NB 8 AWG black 0.3 m
wire W7 CV.out+ to F2 8 AWG red 0.3 m
wire W8 F2 to B2+ 8 AWG red 100 mm
wire W9 CV.out- to B2- 8 AWG black 0.3 m
wire W10 NB to BAT- 8 AWG black 4 m
)",
                       use);
  };
  for (const char* use : {"", "use 50 %"}) EXPECT_FALSE(fires("voltage-drop", plan(use))) << use;
}

}  // namespace
}  // namespace loomleaf::test
