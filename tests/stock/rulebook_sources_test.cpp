// Every figure of every installed rulebook says where it is from and of which edition; and the colour codes as printed.
#include <gtest/gtest.h>

#include <regex>
#include <set>

#include "support/installed_templates.h"

namespace loomleaf {
namespace {

// A year, or the admission that the reprint did not tell it; custom of the trade has no document behind it.
bool says_its_edition(const Provenance& from) {
  static const std::regex edition("(^|[^0-9])(19|20)[0-9]{2}($|[^0-9])|edition not known");
  if (from.known == Known::practice) return to_text(from) == "common practice";
  return std::regex_search(from.source, edition);
}

std::vector<Provenance> sources_of(const Rulebook& book) {
  std::vector<Provenance> all = {book.drop_limit.from,        book.return_alone_may_be_switched.from,
                                 book.chassis_may_carry.from, book.continuous_factor.from,
                                 book.continuous_from.from,   book.conduit_fill_from};
  const auto add = [&](const auto& rows) {
    for (const auto& row : rows) all.push_back(row.from);
  };
  add(book.ampacity);
  add(book.ambient);
  add(book.grouping);
  add(book.device_allowances);
  add(book.positions);
  add(book.least_sizes);
  add(book.colours);
  if (book.longest_tail) all.push_back(book.longest_tail->from);
  if (book.least_bond) all.push_back(book.least_bond->from);
  if (book.parallel_from) all.push_back(book.parallel_from->from);
  return all;
}

TEST(Rulebooks, NameSourceAndEditionOfEveryFigure) {
  const std::vector<std::string> books = installed_templates().list("rulebooks");
  EXPECT_EQ(books, (std::vector<std::string>{"marine", "metric", "rv"}));
  for (const std::string& name : books) {
    const Rulebook book = installed_rulebook(name);
    EXPECT_FALSE(book.ampacity.empty() || book.ambient.empty() || book.grouping.empty() ||
                 book.device_allowances.empty() || book.positions.empty() || book.least_sizes.empty() ||
                 book.colours.empty())
        << name;
    for (const Provenance& from : sources_of(book)) EXPECT_TRUE(says_its_edition(from)) << name << ": " << from.source;
  }
}

TEST(Rulebooks, AnEditionIsAYearOrItsAbsenceSaid) {
  EXPECT_TRUE(says_its_edition({"NEC 310.16, 2020", Known::seen}));
  EXPECT_TRUE(says_its_edition({"ISO 10133:2012 7.7", Known::memory}));
  EXPECT_TRUE(says_its_edition({"ABYC E-11, edition not known", Known::seen}));
  EXPECT_TRUE(says_its_edition({"", Known::practice}));
  EXPECT_FALSE(says_its_edition({"ABYC E-11", Known::seen}));
  EXPECT_FALSE(says_its_edition({"33 CFR 183.425(e)", Known::seen}));
  EXPECT_FALSE(says_its_edition({"", Known::memory}));
}

std::set<std::string> colours_for(const char* book, const char* use) {
  std::set<std::string> names;
  for (const ColourRow& row : installed_rulebook(book).colours) {
    if (row.use != use) continue;
    for (const WireColour& colour : row.colours) names.insert(to_text(colour));
  }
  return names;
}

// ABYC E-11 tables XIV and XV in reprints, seen. Dark and light blue are one colour here; yellow stands for negative,
// so it does not for the blower; tan, of the water temperature, has no name among the colours of IEC 60757.
TEST(MarineRulebook, HoldsTheColoursOfAbycE11) {
  std::set<std::string> positive = {
      "red",           // mains
      "yellow/red",    // starting
      "brown/yellow",  // bilge blower
      "grey",          // navigation lights, tachometer
      "brown",         // pumps, charge light, generator armature
      "orange",        // accessory and common feed
      "violet",        // ignition and instruments
      "blue",          // cabin and instrument lights, oil pressure; with a stripe: tilt or trim up
      "pink",          // fuel gauge
  };
  for (const char* stripe : {"black", "brown", "red", "orange", "blue", "violet", "grey", "white", "pink"})
    positive.insert(std::string("green/") + stripe);  // tilt or trim down: with any stripe but yellow
  EXPECT_EQ(colours_for("marine", "positive"), positive);
  EXPECT_EQ(colours_for("marine", "negative"), (std::set<std::string>{"black", "yellow", "black/yellow"}));
  EXPECT_EQ(colours_for("marine", "bond"), (std::set<std::string>{"green", "green/yellow"}));
}

// ISO 10133 7.9, from memory: positive any but black, yellow, green and green-and-yellow
TEST(MetricRulebook, HoldsTheColoursOfIso10133) {
  std::set<std::string> positive;
  for (const ColourName& each : colour_names()) positive.emplace(each.name);
  for (const char* other : {"black", "yellow", "green"}) positive.erase(other);
  EXPECT_EQ(positive.size(), 11U);
  EXPECT_EQ(colours_for("metric", "positive"), positive);
  EXPECT_EQ(colours_for("metric", "negative"), (std::set<std::string>{"black", "yellow"}));
  EXPECT_EQ(colours_for("metric", "bond"), (std::set<std::string>{"green", "green/yellow"}));
}

}  // namespace
}  // namespace loomleaf
