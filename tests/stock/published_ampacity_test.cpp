// Every ampacity cell that the rulebooks hold, against the tables as they were printed.
#include <gtest/gtest.h>

#include <sstream>

#include "support/installed_templates.h"

namespace loomleaf {
namespace {

// Lines of a size and what it carries, one figure for each insulation in the order given.
using Lines = std::vector<const char*>;

WireSize size_of(const std::string& text, bool metric) {
  if (metric) return WireSize::metric(square_millimetres(std::stod(text)));
  const std::size_t slash = text.find("/0");
  return WireSize::awg(slash == std::string::npos ? std::stoi(text) : 1 - std::stoi(text.substr(0, slash)));
}

struct PublishedCell {
  WireSize size;
  Temperature insulation{};
  double amperes = 0;
};

std::vector<PublishedCell> cells_of(const Lines& lines, const std::vector<double>& insulations, bool metric = false) {
  std::vector<PublishedCell> cells;
  for (const std::string line : lines) {
    std::istringstream words(line);
    std::string size;
    words >> size;
    for (const double insulation : insulations) {
      double amperes = 0;
      if (words >> amperes) cells.push_back({size_of(size, metric), celsius(insulation), amperes});
    }
  }
  return cells;
}

// The cell of a table itself, whatever caps hold beside it.
std::optional<double> listed(const Rulebook& book, const PublishedCell& cell) {
  for (const AmpacityRow& row : book.ampacity)
    if (row.size == cell.size && row.insulation == cell.insulation) return row.may_carry.in(amperes);
  return std::nullopt;
}

std::string name_of(const PublishedCell& cell) {
  return to_text(cell.size) + " at " + std::to_string(cell.insulation.in(celsius));
}

// NEC 310.16 (2020), copper, up to three conductors at 30 C; seen in reprints
TEST(RvRulebook, HoldsEveryCellOfNec310Dot16) {
  const Lines printed = {
      "14 15 20 25",     "12 20 25 30",     "10 30 35 40",     "8 40 50 55",    "6 55 65 75",
      "4 70 85 95",      "3 85 100 115",    "2 95 115 130",    "1 110 130 145", "1/0 125 150 170",
      "2/0 145 175 195", "3/0 165 200 225", "4/0 195 230 260",
  };
  const Rulebook rv = installed_rulebook("rv");
  const std::vector<PublishedCell> cells = cells_of(printed, {60, 75, 90});
  EXPECT_EQ(cells.size(), 39U);
  for (const PublishedCell& cell : cells) EXPECT_EQ(listed(rv, cell), cell.amperes) << name_of(cell);
  EXPECT_EQ(listed(rv, {WireSize::awg(18), celsius(90), 0}), 14);
  EXPECT_EQ(listed(rv, {WireSize::awg(16), celsius(90), 0}), 18);
}

// 33 CFR 183.425 table 5, outside the engine space; seen in an open copy, ABYC E-11 table 6A prints the same
TEST(MarineRulebook, HoldsEveryCellOf33Cfr183Table5) {
  const Lines printed = {
      "18 10 10 15 20 20 25 25",         "16 15 15 20 25 25 30 35",         "14 20 20 25 30 35 40 45",
      "12 25 25 35 40 45 50 55",         "10 40 40 50 55 60 70 70",         "8 55 65 70 70 80 90 100",
      "6 80 95 100 100 120 125 135",     "4 105 125 130 135 160 170 180",   "3 120 145 150 155 180 195 210",
      "2 140 170 175 180 210 225 240",   "1 165 195 210 210 245 265 280",   "1/0 195 230 245 245 285 305 325",
      "2/0 225 265 285 285 330 355 370", "3/0 260 310 330 330 385 410 430", "4/0 300 360 385 385 445 475 510",
  };
  const Rulebook marine = installed_rulebook("marine");
  const std::vector<PublishedCell> cells = cells_of(printed, {60, 75, 80, 90, 105, 125, 200});
  EXPECT_EQ(cells.size(), 105U);
  for (const PublishedCell& cell : cells) {
    EXPECT_EQ(marine.ampacity_of(cell.size, cell.insulation)->value.in(amperes), cell.amperes) << name_of(cell);
  }
}

// The same in an engine space of 50 C by note 1, to a tenth of an ampere. Its column for 60 C insulation, x 0.58, is
// the law's alone: ABYC E-11 does not permit such insulation there.
TEST(MarineRulebook, HoldsEveryCellOfTheEngineSpace) {
  const Lines printed = {
      "18 5.8 7.5 11.7 16.4 17.0 22.2 25.0",           "16 8.7 11.2 15.6 20.5 21.2 26.7 35.0",
      "14 11.6 15.0 19.5 24.6 29.8 35.6 45.0",         "12 14.5 18.8 27.3 32.8 38.2 44.5 55.0",
      "10 23.2 30.0 39.0 45.1 51.0 62.3 70.0",         "8 31.9 48.8 54.6 57.4 68.0 80.1 100.0",
      "6 46.4 71.2 78.0 82.0 102.0 111.2 135.0",       "4 60.9 93.8 101.4 110.7 136.0 151.3 180.0",
      "3 69.6 108.8 117.0 127.1 153.0 173.6 210.0",    "2 81.2 127.5 136.5 147.6 178.5 200.2 240.0",
      "1 95.7 146.2 163.8 172.2 208.2 235.8 280.0",    "1/0 113.1 172.5 191.1 200.9 242.2 271.4 325.0",
      "2/0 130.5 198.8 222.3 233.7 280.5 315.9 370.0", "3/0 150.8 232.5 257.4 270.6 327.2 364.9 430.0",
      "4/0 174.0 270.0 300.3 315.7 378.2 422.8 510.0",
  };
  const Rulebook marine = installed_rulebook("marine");
  const std::vector<PublishedCell> cells = cells_of(printed, {60, 75, 80, 90, 105, 125, 200});
  EXPECT_EQ(cells.size(), 105U);
  for (const PublishedCell& cell : cells) {
    const double factor = marine.ambient_factor(cell.size, cell.insulation, celsius(50)).value;
    const double carries = marine.derated_ampacity(cell.size, cell.insulation, factor)->value.in(amperes);
    EXPECT_NEAR(carries, cell.amperes, 0.0501) << name_of(cell);
  }
}

// ISO 10133:2012 table A.1, carried into ISO 13297:2020 annex A (from memory); its column for 85 to 90 C holds from 85
// on
TEST(MetricRulebook, HoldsEveryCellOfIso10133TableA1) {
  const Lines printed = {
      "0.75 6 10 12 16 20 25",      "1 8 14 18 20 25 35",          "1.5 12 18 21 25 30 40",
      "2.5 17 25 30 35 40 45",      "4 22 35 40 45 50 55",         "6 29 45 50 60 70 75",
      "10 40 65 70 90 100 120",     "16 54 90 100 130 150 170",    "25 71 120 140 170 185 200",
      "35 87 160 185 210 225 240",  "50 105 210 230 270 300 325",  "70 135 265 285 330 360 375",
      "95 165 310 330 390 410 430", "120 190 360 400 450 480 520", "150 220 380 430 475 520 560",
  };
  const Rulebook metric = installed_rulebook("metric");
  const std::vector<PublishedCell> cells = cells_of(printed, {60, 70, 85, 105, 125, 200}, true);
  EXPECT_EQ(cells.size(), 90U);
  for (const PublishedCell& cell : cells) {
    EXPECT_EQ(metric.ampacity_of(cell.size, cell.insulation)->value.in(amperes), cell.amperes) << name_of(cell);
  }
}

}  // namespace
}  // namespace loomleaf
