// Short circuits in networks with several batteries, rings and wires side by side, against the solver of normal work
// with a link where the short is: another way of working out the same.
#include <gtest/gtest.h>

#include <random>
#include <sstream>

#include "loomleaf/study/network.h"
#include "short_circuit/support/shorted.h"

namespace loomleaf::test {
namespace {

// Batteries on a bus, a main that may be doubled, a ring of three buses, and circuits on each.
std::string meshed_plan(unsigned seed) {
  std::mt19937 random(seed);
  const auto pick = [&](int least, int most) {
    return least + static_cast<int>(random() % unsigned(most - least + 1));
  };
  std::ostringstream plan;
  plan << "system 12 V rules rv\nbus PB\nbus NB\nbus R0\nbus R1\nbus R2\n";
  const int batteries = pick(1, 3);
  for (int b = 0; b < batteries; ++b) {
    plan << "source B" << b << " 12.8 V low 12." << pick(0, 4) << " V 100 Ah short-circuit " << pick(500, 3000)
         << " A\n";
    if (pick(0, 1) == 0)
      plan << "wire P" << b << " B" << b << "+ to PB 2 AWG red " << pick(100, 900) << " mm\n";
    else
      plan << "fuse FB" << b << " 100 A class-t on B" << b << "+\nwire P" << b << " FB" << b << " to PB 2 AWG red "
           << pick(100, 900) << " mm\n";
    plan << "wire N" << b << " NB to B" << b << "- 2 AWG black " << pick(100, 900) << " mm\n";
  }
  plan << "fuse F0 80 A class-t on PB\nwire M0 F0 to R0 4 AWG red " << pick(1, 5) << " m\n";
  if (pick(0, 1) == 0) plan << "fuse F1 60 A mega on PB\nwire M1 F1 to R1 6 AWG red " << pick(1, 5) << " m\n";
  for (int r = 0; r < 3; ++r)
    plan << "wire R" << r << "W R" << r << " to R" << (r + 1) % 3 << " 6 AWG red " << pick(1, 6) << " m\n";
  for (int c = 0; c < 6; ++c)
    plan << "fuse C" << c << " 10 A blade on R" << pick(0, 2) << "\nload L" << c << " 5 W\ncable K" << c << " C" << c
         << ", NB to L" << c << " 14 AWG " << pick(1, 9) << " m cores red, black\n";
  return plan.str();
}

enum class Voltages { low, nominal };

// The network with every battery behind its internal resistance. A branch may be given another resistance.
class WholeNetwork {
 public:
  WholeNetwork(const Shorted& plan, Voltages voltages) : plan_(plan), circuit_(plan.seen.circuit) {
    shape_.nodes = circuit_.nodes.size();
    for (const BranchId id : circuit_.branches.ids()) {
      const Branch& branch = circuit_.branches[id];
      shape_.links.push_back({branch.a.value, branch.b.value, plan.seen.study.working.branch_resistance[id].in(ohms)});
    }
    double lowest = 100.0;  // batteries side by side stand at the lowest among them
    for (const TwoPole& source : circuit_.sources)
      lowest = std::min(lowest, battery(source).low_or_nominal().in(volts));
    for (const TwoPole& source : circuit_.sources) {
      const double volt = voltages == Voltages::low ? lowest : battery(source).nominal.in(volts);
      shape_.holds.push_back({shape_.nodes, source.minus.value, volt});
      shape_.links.push_back(
          {shape_.nodes++, source.plus.value, (battery(source).nominal / *battery(source).short_circuit).in(ohms)});
    }
  }

  double short_between(NodeId a, NodeId b) const {
    NetworkShape shape = shape_;
    shape.links.push_back({a.value, b.value, 0.0});
    return Network(shape).solve({}).link_ampere.back();
  }

  // The worse of the device's two sides, all of the return as zero ohm, the device a link of none.
  double prospective(BranchId device) const {
    NetworkShape shape = shape_;
    for (const BranchId id : circuit_.branches.ids())
      if (plan_.seen.study.sides[0].is_return(circuit_.branches[id].a)) shape.links[id.value].ohm = 0.0;
    shape.links[device.value].ohm = 0.0;
    const Branch& branch = circuit_.branches[device];
    double worst = 0.0;
    for (const NodeId side : {branch.a, branch.b}) {
      NetworkShape shorted = shape;
      shorted.links.push_back({side.value, circuit_.sources.front().minus.value, 0.0});
      const double from_a = Network(shorted).solve({}).link_ampere[device.value];
      worst = std::max(worst, side == branch.b ? from_a : -from_a);
    }
    return worst;
  }

 private:
  const Source& battery(const TwoPole& source) const { return *plan_.seen.plan.items[source.item].as<Source>(); }

  const Shorted& plan_;
  const Circuit& circuit_;
  NetworkShape shape_;
};

class MeshedPlan : public testing::TestWithParam<unsigned> {};

TEST_P(MeshedPlan, ShortsAtItsLoadsAreThoseOfTheWholeNetwork) {
  const Shorted plan(meshed_plan(GetParam()));
  const WholeNetwork network(plan, Voltages::low);
  for (const TwoPole& load : plan.seen.circuit.loads) {
    const std::string cable = "K" + plan.seen.plan.items[load.item].id.substr(1);
    const double expected = network.short_between(load.plus, load.minus);
    EXPECT_NEAR(plan.at_far_end(cable + ".red"), expected, 1e-4 * expected) << cable;
    EXPECT_NEAR(plan.at_far_end(cable + ".black"), expected, 1e-4 * expected) << cable;
  }
}

TEST_P(MeshedPlan, ProspectiveCurrentsAreThoseOfTheWholeNetwork) {
  const Shorted plan(meshed_plan(GetParam()));
  const WholeNetwork network(plan, Voltages::nominal);
  for (const BranchId id : plan.seen.circuit.branches.ids()) {
    const Branch& branch = plan.seen.circuit.branches[id];
    if (branch.kind != BranchKind::device) continue;
    const double expected = network.prospective(id);
    EXPECT_NEAR(plan.prospective(plan.seen.plan.items[*branch.item].id), expected, 1e-3 * expected)
        << plan.seen.plan.items[*branch.item].id;
  }
}

INSTANTIATE_TEST_SUITE_P(Seeds, MeshedPlan, testing::Range(1U, 41U));

}  // namespace
}  // namespace loomleaf::test
