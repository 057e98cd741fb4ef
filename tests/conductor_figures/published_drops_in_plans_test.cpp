// Published voltage drops once more, through a whole plan: read, routed, solved, and the drop taken from the study. The
// load draws a constant current from a source at its nominal voltage, as the publishers reckon.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "conductor_figures/support/other_wires.h"
#include "loomleaf/command/examine.h"
#include "support/template_folder.h"

namespace loomleaf {
namespace {

const TemplateFolders& installed() {
  static const TemplateFolders folders{{LOOMLEAF_ROOT "/templates"}};
  return folders;
}

struct Way {
  std::string size;
  double out_and_back_m, amperes;
};

// What the load loses, V, of a source of so many volts.
double lost(const Way& way, double source, const std::string& rulebook, double celsius,
            const TemplateFolders& folders = installed()) {
  const SourceText text("drop.loom",
                        fmt::format("system {0} V rules {1} conductor {2} C\n"
                                    "source BAT {0} V 500 Ah max 500 A short-circuit 5 kA\n"
                                    "load LMP {3} A constant-current\n"
                                    "wire W1 BAT+ to LMP+ {4} {5} m\n"
                                    "wire W2 LMP- to BAT- {4} {5} m\n",
                                    source, rulebook, celsius, way.amperes, way.size, way.out_and_back_m / 2));
  const Examination seen = examine(text, folders);
  for (const TemplateError& error : seen.template_errors) ADD_FAILURE() << error.file << ": " << error.message;
  for (const Complaint& complaint : seen.complaints) ADD_FAILURE() << to_text(complaint, text);
  if (!seen.understood() || seen.study.working.loads.size() != 1) return 0.0;
  const LoadResult& load = seen.study.working.loads.front();
  EXPECT_TRUE(load.drop && load.supply_voltage) << way.size;
  if (!load.drop || !load.supply_voltage) return 0.0;
  EXPECT_DOUBLE_EQ(load.supply_voltage->in(volts), source);
  return load.drop->value * source;
}

constexpr double feet_to_m = 0.3048;

struct Choice {
  const char* row;
  double amperes, out_and_back_ft, percent;
  const char *chosen, *thinner;  // the next thinner that wire tables list
};

// ABYC E-11 3 % and 10 % tables in reprints, a boat-cable maker's tables C and D, a chandler's catalogue (all 12 V,
// lengths out and back, K = 10.75 with AWG areas, which is copper near 31 C): the size chosen keeps the limit, the next
// thinner does not
TEST(PublishedDropsInPlans, TheTablesChoiceKeepsItsLimitAndTheNextThinnerDoesNot) {
  const Choice choices[] = {{"boat-cable maker's table C, 5 A 10 ft", 5, 10, 3, "18 AWG", "20 AWG"},
                            {"boat-cable maker's table C, 40 A 10 ft", 40, 10, 3, "8 AWG", "10 AWG"},
                            {"boat-cable maker's table C, 25 A 20 ft", 25, 20, 3, "8 AWG", "10 AWG"},
                            {"boat-cable maker's table C, 15 A 30 ft", 15, 30, 3, "8 AWG", "10 AWG"},
                            {"boat-cable maker's table C, 5 A 50 ft", 5, 50, 3, "10 AWG", "12 AWG"},
                            {"boat-cable maker's table C, 60 A 50 ft", 60, 50, 3, "1/0 AWG", "1 AWG"},
                            {"boat-cable maker's table C, 30 A 80 ft", 30, 80, 3, "1 AWG", "2 AWG"},
                            {"boat-cable maker's table D, 25 A 10 ft", 25, 10, 10, "16 AWG", "18 AWG"},
                            {"ABYC E-11 3 % table, 10 A 40 ft", 10, 40, 3, "8 AWG", "10 AWG"},
                            {"ABYC E-11 3 % table, 50 A 40 ft", 50, 40, 3, "2 AWG", "4 AWG"},
                            {"ABYC E-11 10 % table, 100 A 60 ft", 100, 60, 10, "2 AWG", "4 AWG"},
                            {"chandler's catalogue, 10 A pump at 10 %", 10, 21, 10, "16 AWG", "18 AWG"}};
  for (const Choice& choice : choices) {
    const double limit = 12 * choice.percent / 100, metre = choice.out_and_back_ft * feet_to_m;
    for (const char* rulebook : {"marine", "rv"}) {
      EXPECT_LE(lost({choice.chosen, metre, choice.amperes}, 12, rulebook, 30), limit) << choice.row;
      EXPECT_GT(lost({choice.thinner, metre, choice.amperes}, 12, rulebook, 30), limit) << choice.row;
    }
  }
}

// ABYC E-11 table IX (3 %) in a reprint, seen: reckoned with K = 10.75 and the least areas of SAE. Copper of the stock
// has that K at 24 C. Each cell names the thinnest size that keeps 0.36 V
TEST(PublishedDropsInPlans, AbycTableIxIsMetWithVehicleWire) {
  struct Cell {
    double amperes, out_and_back_ft;
    const char *chosen, *thinner;
  };
  const Cell cells[] = {{5, 15, "16 SAE", "18 SAE"},   {5, 40, "10 SAE", "12 SAE"}, {5, 100, "6 SAE", "8 SAE"},
                        {10, 20, "10 SAE", "12 SAE"},  {10, 50, "6 SAE", "8 SAE"},  {10, 130, "2 SAE", "4 SAE"},
                        {15, 30, "8 SAE", "10 SAE"},   {15, 120, "2 SAE", "4 SAE"}, {20, 50, "4 SAE", "6 SAE"},
                        {20, 150, "1/0 SAE", "1 SAE"}, {25, 30, "6 SAE", "8 SAE"},  {25, 90, "1 SAE", "2 SAE"}};
  for (const Cell& cell : cells) {
    const double metre = cell.out_and_back_ft * feet_to_m;
    EXPECT_LE(lost({cell.chosen, metre, cell.amperes}, 12, "marine", 24), 0.36) << cell.chosen;
    EXPECT_GT(lost({cell.thinner, metre, cell.amperes}, 12, "marine", 24), 0.36) << cell.thinner;
  }
}

// A solar builder's 2 % chart for 12 V: two-conductor copper, longest run in ft one way, within 10 %
TEST(PublishedDropsInPlans, TheLongestRunsOfATwoPercentChartDropTwoPercent) {
  struct Run {
    double amperes, one_way_ft;
    const char* size;
  };
  const Run runs[] = {{1, 45, "14 AWG"},   {2, 22.5, "14 AWG"},  {2, 145, "6 AWG"},   {4, 17.5, "12 AWG"},
                      {4, 180, "2 AWG"},   {6, 17.5, "10 AWG"},  {6, 193, "1/0 AWG"}, {10, 18, "8 AWG"},
                      {10, 45.5, "4 AWG"}, {10, 230, "4/0 AWG"}, {30, 24, "2 AWG"},   {100, 14.5, "2/0 AWG"}};
  for (const Run& run : runs)
    EXPECT_NEAR(lost({run.size, 2 * run.one_way_ft * feet_to_m, run.amperes}, 12, "rv", 30), 0.24, 0.024)
        << run.amperes << " A over " << run.one_way_ft << " ft";
}

// Other wire than the installed, in a template folder of its own.
class OtherWires : public ::testing::Test {
 protected:
  double lost_on(std::initializer_list<OtherWire> wires, const Way& way, double source) const {
    own_.write("stock", "wires.xml", wires_template(wires));
    return lost(way, source, "metric", 20, {{own_.path(), LOOMLEAF_ROOT "/templates"}});
  }
  TemplateFolder own_;
};

// FAA AC 43.13-1B tables 11-7 to 11-9: tinned aircraft wire at 20 C, 20 A, run lengths that count all the conductor
TEST_F(OtherWires, OfAircraftDropAsTheChartsForAircraftSay) {
  struct Run {
    const char* size;
    double feet, volts, within;
  };
  const Run runs[] = {
      {"6 AWG", 107, 0.942, 0.02}, {"12 AWG", 88, 3.6, 0.03}, {"10 AWG", 39, 0.98, 0.02}, {"10 AWG", 156, 3.93, 0.02}};
  for (const Run& run : runs)
    EXPECT_NEAR(lost_on({{"12 AWG", 2.976, 6.627}, {"10 AWG", 4.740, 4.134}, {"6 AWG", 13.59, 1.444}},
                        {run.size, run.feet * feet_to_m, 20}, 28),
                run.volts, run.volts * run.within)
        << run.size << " over " << run.feet << " ft";
}

// A British vehicle-cable table: 5 m of conductor in all at 20 C, nominal resistances
TEST_F(OtherWires, OfVehiclesDropAsTheirTableSays) {
  struct Run {
    const char* size;
    double amperes, volts;
  };
  for (const Run& run : {Run{"0.65 mm2", 5.75, 0.845}, Run{"1.5 mm2", 12.75, 0.797}, Run{"2.5 mm2", 21.75, 0.816}})
    EXPECT_NEAR(lost_on({{"0.65 mm2", 0.65, 29.4}, {"1.5 mm2", 1.5, 12.5}, {"2.5 mm2", 2.5, 7.5}},
                        {run.size, 5, run.amperes}, 12),
                run.volts, run.volts * 0.01)
        << run.size;
}

}  // namespace
}  // namespace loomleaf
