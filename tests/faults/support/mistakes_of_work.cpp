#include <fmt/format.h>

#include <cmath>

#include "faults/support/mistakes.h"

namespace loomleaf::test {

namespace {

using enum CircuitKind;

// An overload is right where it flows: the part is made for seven tenths of it.
std::string rated_too_low(double ampere) { return ampere_text(std::round(700 * ampere) / 1000); }

std::string weak_switch(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {lamps_in_a_chain, pump, two_way_lamp, heater, lamps_on_splices});
  if (!circuit) return {};
  const std::string& contact = dice.one_of(circuit->contacts);
  plan.statements.of(contact).tell("rating", rated_too_low(circuit->ampere));
  return contact;
}

std::string weak_splice(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {branches, lamps_on_splices});
  if (!circuit) return {};
  const std::string& splice = dice.one_of(circuit->splices);
  plan.statements.of(splice).tell("rating", rated_too_low(circuit->ampere));
  return splice;
}

std::string weak_plug(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {plug});
  if (!circuit) return {};
  plan.statements.of(circuit->others[0]).tell("rating", rated_too_low(circuit->ampere));
  return circuit->others[0];
}

std::string weak_relay(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {relay});
  if (!circuit) return {};
  plan.statements.of(circuit->others[0]).tell("contact", "contact " + rated_too_low(circuit->ampere));
  return circuit->others[0];
}

// Of what runs at its `use` share a third always flows.
std::string weak_bus(SoundPlan& plan, Dice& dice) {
  const SoundBank& bank = plan.banks[0];
  const std::string& bus = dice.chance(50) ? bank.bus : bank.return_bus;
  plan.statements.of(bus).tell("rating", ampere_text(std::round(300 * bank.ampere) / 1000));
  return bus;
}

std::string weak_battery(SoundPlan& plan, Dice&) {
  const SoundBank& bank = plan.banks[0];
  plan.statements.of(bank.batteries[0]).tell("max", "max " + ampere_text(std::round(300 * bank.ampere) / 1000));
  return bank.batteries[0];
}

std::string weak_converter(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {converter});
  if (!circuit) return {};
  Statement& statement = plan.statements.of(circuit->others[0]);
  statement.tell("rating", ampere_text(0.5 * std::stod(statement.piece("rating"))));
  return circuit->others[0];
}

std::string fuse_too_small(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {lamps_in_a_chain, pump, plug, heater, branches, sockets},
                                       [](const SoundPlan&, const SoundCircuit& at) { return at.ampere > 2.5; });
  if (!circuit) return {};
  Statement& device = plan.statements.of(circuit->device);
  device.tell("rating", ampere_text(std::floor(circuit->ampere * 0.9)));
  return circuit->device;
}

// Its lasting load times 1.25 is more than it is rated for, the load itself is not.
std::string fuse_too_small_for_lasting(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {heater});
  if (!circuit) return {};
  plan.statements.of(circuit->device).tell("rating", ampere_text(std::round(110 * circuit->ampere) / 100));
  return circuit->device;
}

std::string fuse_blown_by_surge(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit =
      pick_circuit(plan, dice, {pump}, [](const SoundPlan&, const SoundCircuit& at) { return at.volt < 30; });
  if (!circuit) return {};
  plan.statements.of(circuit->loads[0]).tell("surge", "surge 7x 3 s");
  return circuit->device;
}

// So long that the way out and back takes a sixth of the voltage.
std::string long_run(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {lamps_in_a_chain, pump, heater, branches});
  if (!circuit) return {};
  const double metre = circuit->volt / 6.0 / circuit->ampere / 2.0 / ohm_per_metre(plan.rulebook, circuit->size);
  plan.statements.of(circuit->feed[0]).tell("length", metre_text(metre));
  plan.statements.of(circuit->back.back()).tell("length", metre_text(metre));
  return circuit->loads.back();
}

// More than four times the power that can come through: no working point.
std::string collapse(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {pump});
  if (!circuit) return {};
  const double metre = 1.5 * circuit->volt / 4.0 / circuit->ampere / 2.0 / ohm_per_metre(plan.rulebook, circuit->size);
  plan.statements.of(circuit->feed[0]).tell("length", metre_text(metre));
  plan.statements.of(circuit->back[0]).tell("length", metre_text(metre));
  plan.statements.of(circuit->loads[0]).untell("use");
  return circuit->loads[0];
}

std::string sensitive_load(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {monitor});
  if (!circuit) return {};
  plan.statements.of(circuit->loads[0]).tell("min", fmt::format("min {} V", circuit->volt));
  return circuit->loads[0];
}

// More load than the wires bear, behind a fuse to match.
std::string too_much_load(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {lamps_in_a_chain}, [](const SoundPlan& in, const SoundCircuit& at) {
    return best_ampere(in.rulebook, at.size) < 31;
  });
  if (!circuit) return {};
  const double ampere = 1.2 * table_ampere(plan.rulebook, circuit->size);
  Statement& load = plan.statements.of(circuit->loads[0]);
  load.tell("power", fmt::format("{:g} A", ampere));
  load.tell("kind", "constant-current");  // whatever the voltage falls to
  Statement& device = plan.statements.of(circuit->device);
  device.tell("family", "class-t");
  device.tell("rating", ampere_text(device_rating("class-t", 1.3 * ampere)));
  return circuit->feed[1];
}

std::string over_voltage(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {lamps_in_a_chain, plug, sockets, branches, ring});
  if (!circuit) return {};
  const std::string& load = dice.one_of(circuit->loads);
  plan.statements.of(load).tell("rated", fmt::format("{} V", circuit->volt / 2));
  return load;
}

std::string switch_of_low_voltage(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {lamps_in_a_chain, pump, two_way_lamp, heater});
  if (!circuit) return {};
  const std::string& contact = dice.one_of(circuit->contacts);
  plan.statements.of(contact).tell("volt", fmt::format("{} V", circuit->volt));
  return contact;
}

std::string fuse_of_low_voltage(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit =
      pick_circuit(plan, dice, {lamps_in_a_chain, pump, two_way_lamp, heater, charger, spare, ring});
  if (!circuit) return {};
  plan.statements.of(circuit->device).tell("volt", fmt::format("{} V", circuit->volt));
  return circuit->device;
}

// A battery of another voltage joined, through a fuse as it should be.
std::string unlike_battery(SoundPlan& plan, Dice&) {
  const SoundBank& bank = plan.banks[0];
  const int volt = bank.volt == 48 ? 24 : 2 * bank.volt;
  const std::string size = plan.statements.of(bank.lead).piece("size");
  plan.statements.add(
      "source", "BX",
      {{"volt", fmt::format("{} V", volt)}, {"max", "max 50 A"}, {"short-circuit", "short-circuit 2 kA"}});
  plan.statements.add("fuse", "FX", {{"rating", "30 A"}, {"family", "class-t"}});
  plan.statements.add_wire("WX", "BX+", "FX", size, "red", "0.1 m");
  plan.statements.add_wire("WY", "FX", bank.bus, size, "red", "0.5 m");
  plan.statements.add_wire("WZ", bank.return_bus, "BX-", size, "black", "0.5 m");
  for (const std::string& bus : {bank.bus, bank.return_bus}) plan.statements.of(bus).tell("ways", "60 ways");
  return "BX";
}

const std::vector<std::string> overloads = {
    "overloaded-contact", "overloaded-splice", "overloaded-bus", "overloaded-source", "fuse-too-small", "voltage-drop",
    "low-voltage",        "overloaded-wire",   "gauge-mismatch", "short-not-cleared", "not-checked"};

const std::vector<Mistake> table = {
    {"switch too small", "overloaded-contact", {}, weak_switch},
    {"splice too small", "overloaded-splice", {}, weak_splice},
    {"plug too small", "overloaded-contact", {}, weak_plug},
    {"relay too small", "overloaded-contact", {}, weak_relay},
    {"bus too small", "overloaded-bus", {}, weak_bus},
    {"battery too small", "overloaded-source", {}, weak_battery},
    {"converter too small", "overloaded-source", {}, weak_converter},
    {"fuse too small", "fuse-too-small", {"voltage-drop", "low-voltage", "not-checked"}, fuse_too_small},
    {"fuse too small for what lasts", "fuse-too-small", {}, fuse_too_small_for_lasting},
    {"fuse blown by a surge", "fuse-too-small", {}, fuse_blown_by_surge},
    {"run too long",
     "voltage-drop",
     {"voltage-drop", "low-voltage", "short-not-cleared", "fuse-too-small", "overloaded-splice", "overloaded-contact"},
     long_run},
    {"more power than can come through", "low-voltage", {"voltage-drop", "short-not-cleared"}, collapse},
    {"load of a high least voltage", "low-voltage", {}, sensitive_load},
    {"more load than the wires bear", "overloaded-wire", overloads, too_much_load},
    {"load of a lower voltage", "over-voltage", {}, over_voltage},
    {"switch of a lower voltage", "voltage-rating", {}, switch_of_low_voltage},
    {"fuse of a lower voltage", "voltage-rating", {}, fuse_of_low_voltage},
    {"battery of another voltage",
     "voltage-clash",
     {"over-voltage", "voltage-rating", "gauge-mismatch", "interrupt-rating", "not-checked"},
     unlike_battery},
};

}  // namespace

std::span<const Mistake> mistakes_of_work() { return table; }

}  // namespace loomleaf::test
