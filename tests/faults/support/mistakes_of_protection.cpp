#include <fmt/format.h>

#include <algorithm>

#include "faults/support/mistakes.h"

namespace loomleaf::test {

namespace {

using enum CircuitKind;
const std::vector<CircuitKind> wired = {lamps_in_a_chain, pump, two_way_lamp, plug, heater, branches};

// The next thinner wire, of common insulation, that this device does not protect; empty: none thinner than `size`.
std::string too_thin(const SoundPlan& plan, const std::string& size, double rating) {
  for (int steps = -1; !other_size(plan.rulebook, size, steps).empty(); --steps) {
    const std::string thinner = other_size(plan.rulebook, size, steps);
    if (common_ampere(plan.rulebook, thinner) < rating) return thinner;
  }
  return {};
}

void make_thin(SoundPlan& plan, const std::string& wire, double rating) {
  Statement& statement = plan.statements.of(wire);
  statement.tell("size", too_thin(plan, statement.piece("size"), rating));
  statement.tell("insulation", "insulation 60 C");
}

bool can_be_thinner(const SoundPlan& plan, const SoundCircuit& circuit) {
  return !too_thin(plan, circuit.size, circuit.rating).empty();
}

std::string leave_out_final_fuse(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, wired, [](const SoundPlan& in, const SoundCircuit& at) {
    return best_ampere(in.rulebook, at.size) < bank_of(in, at).rating;
  });
  if (!circuit) return {};
  plan.statements.take_out(circuit->device);
  plan.statements.of(circuit->feed[0]).tell("from", circuit->plus);
  return circuit->feed[0];
}

std::string leave_out_main_fuse(SoundPlan& plan, Dice&) {
  const SoundBank& bank = plan.banks[0];
  plan.statements.take_out(bank.fuse);
  // The lead goes to the isolator, the wire that stood between is not needed.
  plan.statements.of(bank.lead).tell("to", "to " + bank.isolator);
  plan.statements.take_out(bank.to_isolator);
  plan.statements.of(bank.to_bus).tell("length", "3 m");
  return bank.to_bus;
}

std::string long_lead_before_main_fuse(SoundPlan& plan, Dice&) {
  plan.statements.of(plan.banks[0].lead).tell("length", "2.5 m");
  return plan.banks[0].lead;
}

std::string fuse_too_big(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, wired, [](const SoundPlan& in, const SoundCircuit& at) {
    return best_ampere(in.rulebook, at.size) < 25;
  });
  if (!circuit) return {};
  // The next rating sold that is too big.
  Statement& device = plan.statements.of(circuit->device);
  device.tell("family", "class-t");
  device.tell("rating", ampere_text(device_rating("class-t", best_ampere(plan.rulebook, circuit->size) + 1)));
  return circuit->feed[0];
}

std::string thin_feed(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, wired, can_be_thinner);
  if (!circuit) return {};
  const std::string& wire = dice.one_of(circuit->feed);
  make_thin(plan, wire, circuit->rating);
  return wire;
}

std::string thin_return(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, wired, can_be_thinner);
  if (!circuit) return {};
  const std::string& wire = dice.one_of(circuit->back);
  make_thin(plan, wire, circuit->rating);
  return wire;
}

std::string thin_main(SoundPlan& plan, Dice& dice) {
  const SoundBank& bank = plan.banks[0];
  const std::string& wire = dice.chance(50) ? bank.to_bus : bank.back;
  make_thin(plan, wire, bank.rating);
  plan.statements.of(wire).tell("length", "2.5 m");  // a short piece on the way to devices is tolerated
  return wire;
}

std::string thin_branch(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {branches}, can_be_thinner);
  if (!circuit) return {};
  const std::string& wire = dice.one_of(circuit->others);
  make_thin(plan, wire, circuit->rating);
  return wire;
}

// Two circuits tied behind their fuses: each wire then gets what both let through.
std::string bridge_circuits(SoundPlan& plan, Dice& dice) {
  SoundCircuit* one = pick_circuit(plan, dice, {branches}, nullptr);
  if (!one) return {};
  const SoundCircuit* other = nullptr;
  for (const SoundCircuit& at : plan.circuits)
    if (&at != one && at.plus == one->plus && std::ranges::count(wired, at.kind) &&
        (!other || at.rating > other->rating))
      other = &at;
  if (!other || one->rating + other->rating <= best_ampere(plan.rulebook, one->size)) return {};
  plan.statements.add_wire("WX", one->splices[0], other->loads[0] + "+", one->size, "red", "1 m");
  plan.statements.of(one->splices[0]).tell("ways", "9 ways");
  return one->others[0];
}

// A small fuse where all that the battery can give comes together.
std::string main_fuse_that_breaks_too_little(SoundPlan& plan, Dice&) {
  const SoundBank& bank = plan.banks[0];
  plan.statements.of(bank.fuse).tell("family", "low-profile-mini");
  return bank.fuse;
}

// The run is so long that a short at its end is only three times what the fuse is rated for, which this one bears for
// long.
std::string slow_fuse_on_a_long_run(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {CircuitKind::monitor});
  if (!circuit) return {};
  Statement& device = plan.statements.of(circuit->device);
  device.tell("family", "class-t");
  const double rating = std::stod(device.piece("rating"));
  const double metre = circuit->volt / (3.0 * rating) / 2.0 / ohm_per_metre(plan.rulebook, circuit->size);
  for (const std::string& wire : {circuit->feed[0], circuit->back[0]})
    plan.statements.of(wire).tell("length", metre_text(metre));
  return circuit->device;
}

const std::vector<std::string> thin_wire = {"short-not-cleared", "gauge-step", "voltage-drop",
                                            "overloaded-wire",   "least-size", "low-voltage"};

const std::vector<Mistake> table = {
    {"final fuse left out",
     "gauge-mismatch",
     {"gauge-mismatch", "short-not-cleared", "not-checked"},
     leave_out_final_fuse},
    {"main fuse left out",
     "unfused-run",
     {"unfused-run", "gauge-mismatch", "interrupt-rating", "short-not-cleared", "voltage-drop"},
     leave_out_main_fuse},
    {"long lead before the main fuse",
     "unfused-run",
     {"voltage-drop", "short-not-cleared"},
     long_lead_before_main_fuse},
    {"fuse too big for its wires",
     "gauge-mismatch",
     {"gauge-mismatch", "short-not-cleared", "not-checked"},
     fuse_too_big},
    {"feed too thin", "gauge-mismatch", thin_wire, thin_feed},
    {"return too thin", "gauge-mismatch", thin_wire, thin_return},
    {"main wire too thin", "gauge-mismatch", thin_wire, thin_main},
    {"branch too thin", "gauge-mismatch", thin_wire, thin_branch},
    {"two circuits bridged",
     "gauge-mismatch",
     // A switch of two poles no longer opens the feed of its load.
     {"gauge-mismatch", "gauge-step", "short-not-cleared", "fuse-too-small", "overloaded-splice", "overloaded-contact",
      "switched-return"},
     bridge_circuits},
    {"main fuse that breaks too little",
     "interrupt-rating",
     {"interrupt-rating", "not-checked"},
     main_fuse_that_breaks_too_little},
    {"slow fuse on a long run",
     "short-not-cleared",
     {"short-not-cleared", "voltage-drop", "low-voltage", "not-checked"},
     slow_fuse_on_a_long_run},
};

}  // namespace

std::span<const Mistake> mistakes_of_protection() { return table; }

}  // namespace loomleaf::test
