#include <fmt/format.h>

#include <algorithm>

#include "faults/support/mistakes.h"

namespace loomleaf::test {

namespace {

using enum CircuitKind;

std::string crowded_splice(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {branches, lamps_on_splices});
  if (!circuit) return {};
  const std::string& splice = dice.one_of(circuit->splices);
  const int ways = std::stoi(plan.statements.of(splice).piece("ways"));
  plan.statements.of(splice).tell("ways", fmt::format("{} ways", ways - 1));
  return splice;
}

std::string splice_for_other_sizes(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {branches, lamps_on_splices});
  if (!circuit) return {};
  const std::string& splice = dice.one_of(circuit->splices);
  plan.statements.of(splice).tell("takes", "takes 25..35 mm2");
  return splice;
}

std::string crowded_bus(SoundPlan& plan, Dice&) {
  const std::string& bus = plan.banks[0].return_bus;
  const int ways = std::stoi(plan.statements.of(bus).piece("ways"));
  plan.statements.of(bus).tell("ways", fmt::format("{} ways", ways - 2));
  return bus;
}

std::string swapped_ends(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {branches});
  if (!circuit) return {};
  const std::string& lamp = circuit->loads[0];
  plan.statements.of(circuit->others[0]).tell("to", "to " + lamp + "-");
  plan.statements.of(circuit->others[1]).tell("from", lamp + "+");
  return lamp;
}

std::string swapped_converter(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {converter}, [](const SoundPlan& in, const SoundCircuit& at) {
    return in.statements.of(at.others[0]).piece("isolated") == "isolated";
  });
  if (!circuit) return {};
  const std::string& id = circuit->others[0];
  plan.statements.of(circuit->cables[0]).tell("to", fmt::format("to {0}.in-, {0}.in+", id));
  return id;
}

std::string dead_short(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {branches});
  if (!circuit) return {};
  plan.statements.add_wire("WX", circuit->splices[0], circuit->splices[1], circuit->size, "red", "0.2 m");
  for (const std::string& splice : circuit->splices) plan.statements.of(splice).tell("ways", "9 ways");
  return "WX";
}

std::string no_return(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {pump, two_way_lamp, relay});
  if (!circuit) return {};
  plan.statements.take_out(circuit->back[0]);
  return circuit->loads[0];
}

std::string no_supply(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {pump, two_way_lamp, relay, lamps_in_a_chain});
  if (!circuit) return {};
  plan.statements.take_out(circuit->feed.back());
  return circuit->loads[0];
}

std::string loose_switch(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {branches});
  if (!circuit) return {};
  plan.statements.add(
      "switch", "SX",
      {{"rating", "50 A"}, {"volt", "60 V"}, {"at", plan.statements.of(circuit->splices[0]).piece("at")}});
  plan.statements.add_wire("WX", circuit->splices[0], "SX", circuit->size, "red", "0.2 m");
  plan.statements.of(circuit->splices[0]).tell("ways", "9 ways");
  return "SX";
}

std::string unused_item(SoundPlan& plan, Dice& dice) {
  plan.statements.add(dice.chance(50) ? "splice" : "bus", "SX", {{"ways", "3 ways"}, {"rating", "20 A"}});
  return "SX";
}

std::string gauge_step(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {lamps_in_a_chain, pump, two_way_lamp, branches});
  if (!circuit) return {};
  const std::string& wire = circuit->kind == branches ? circuit->others[0] : circuit->feed[1];
  plan.statements.of(wire).tell("size", other_size(plan.rulebook, circuit->size, 2));
  return wire;
}

// Just below what the rulebook lets a single wire be.
std::string below_least_size(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {lamps_in_a_chain, two_way_lamp, plug, branches, monitor},
                                       [](const SoundPlan&, const SoundCircuit& at) { return at.rating <= 5; });
  if (!circuit) return {};
  const char* size = plan.rulebook == "rv" ? "20 AWG" : plan.rulebook == "marine" ? "18 AWG" : "0.75 mm2";
  plan.statements.of(circuit->feed[0]).tell("size", size);
  return circuit->feed[0];
}

// NEC 552.10(C)(4) asks for the size of the battery's other lead.
std::string bond_thinner_than_lead(SoundPlan& plan, Dice& dice) {
  if (plan.rulebook != "rv") return {};
  const SoundBank& bank = dice.one_of(plan.banks);
  Statement& bond = plan.statements.of(bank.bond);
  bond.tell("size", other_size(plan.rulebook, bond.piece("size"), -1));
  return bank.bond;
}

// A hair of a wire, in a bond of the length that a low voltage drives little current through.
std::string bond_that_burns(SoundPlan& plan, Dice&) {
  const auto bank =
      std::ranges::find_if(plan.banks, [](const SoundBank& one) { return one.rating >= 40.0 && one.volt <= 24; });
  if (bank == plan.banks.end()) return {};
  Statement& bond = plan.statements.of(bank->bond);
  bond.tell("size", plan.rulebook == "metric" ? "0.35 mm2" : "24 AWG");
  bond.tell("length", "2 m");
  return bank->bond;
}

std::string switched_return(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {pump, lamps_in_a_chain});
  if (!circuit) return {};
  const std::string& contact = circuit->contacts[0];
  Statement& home = plan.statements.of(circuit->back[0]);
  plan.statements.take_out(circuit->feed[0]);
  plan.statements.of(circuit->feed[1]).tell("from", circuit->device);
  home.tell("to", "to " + contact);
  if (home.piece("length").empty()) home.tell("length", "0.5 m");
  plan.statements.add_wire("WX", contact, circuit->minus, circuit->size, "black", "1 m");
  return contact;
}

std::string full_conduit(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {pump, lamps_on_splices});
  if (!circuit) return {};
  plan.statements.of(circuit->leg).tell("conduit", "conduit 6 mm");
  return circuit->leg;
}

std::string hidden_splice(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {lamps_on_splices});
  if (!circuit) return {};
  plan.statements.of(circuit->place).untell("removable");
  return circuit->splices[0];
}

// Where metalwork may carry, it comes back through the bond all the same.
std::string chassis_return(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {pump, lamps_in_a_chain, two_way_lamp, relay});
  if (!circuit) return {};
  Statement& home = plan.statements.of(circuit->back[0]);
  home.tell("to", "to HULL");
  if (home.piece("length").empty()) home.tell("length", "1 m");
  return plan.rulebook == "rv" ? bank_of(plan, *circuit).bond : "HULL";
}

std::string wrong_colour(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {lamps_in_a_chain, pump, two_way_lamp, plug, heater, branches});
  if (!circuit) return {};
  const bool feed = dice.chance(50);
  const std::string& wire = dice.one_of(feed ? circuit->feed : circuit->back);
  plan.statements.of(wire).tell("colour", feed ? "green/yellow" : "red");
  return wire;
}

std::string same_label(SoundPlan& plan, Dice&) {
  plan.statements.of("W11").id = "W1O";
  return "W1O";
}

// Of the two rulebooks that speak of it.
std::string long_tail(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {monitor});
  if (!circuit || plan.rulebook == "rv") return {};
  plan.statements.of(circuit->loads[0]).tell("tails", fmt::format("tails {} 300 mm", circuit->size));
  return circuit->loads[0];
}

std::string unsaid_rating(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {branches, lamps_on_splices});
  if (!circuit) return {};
  const std::string& splice = dice.one_of(circuit->splices);
  plan.statements.of(splice).untell("rating");
  return splice;
}

std::string idle_accept(SoundPlan& plan, Dice& dice) {
  SoundCircuit* circuit = pick_circuit(plan, dice, {pump, two_way_lamp, branches, ring});
  if (!circuit) return {};
  plan.statements.add("accept", "",
                      {{"what", fmt::format("voltage-drop on {} \"it was once so\"", circuit->loads[0])}});
  return circuit->loads[0];
}

const std::vector<Mistake> table = {
    {"more ends than a splice has ways", "crowded-splice", {}, crowded_splice},
    {"splice for other sizes", "crowded-splice", {}, splice_for_other_sizes},
    {"more ends than a bus has ways", "crowded-splice", {}, crowded_bus},
    {"load's ends swapped", "reversed-polarity", {"colour-clash"}, swapped_ends},
    {"converter's ends swapped", "reversed-polarity", {"no-supply", "no-return"}, swapped_converter},
    {"wire from + to -",
     "dead-short",
     {"colour-clash", "gauge-mismatch", "reversed-polarity", "not-checked"},
     dead_short},
    {"return left out", "no-return", {"loose-end", "no-return"}, no_return},
    {"feed left out", "no-supply", {"loose-end", "no-supply"}, no_supply},
    {"switch with a free end", "loose-end", {}, loose_switch},
    {"item that nothing joins", "unused-item", {}, unused_item},
    {"thick wire behind a thin one", "gauge-step", {"gauge-step"}, gauge_step},
    {"thinner than the least size", "least-size", {"gauge-step", "not-checked", "voltage-drop"}, below_least_size},
    {"bond thinner than the battery's lead", "least-size", {}, bond_thinner_than_lead},
    {"bond that a chafed wire burns", "short-not-cleared", {"least-size", "not-checked"}, bond_that_burns},
    {"switch in the return", "switched-return", {}, switched_return},
    {"conduit too narrow", "full-conduit", {}, full_conduit},
    {"splice behind a fixed cover", "hidden-splice", {"hidden-splice", "not-checked"}, hidden_splice},
    {"current through metalwork", "chassis-return", {"chassis-return", "voltage-drop"}, chassis_return},
    {"colour of another use", "colour-clash", {}, wrong_colour},
    {"two labels that look alike", "same-label", {}, same_label},
    {"lead too long", "long-tail", {}, long_tail},
    {"rating not said", "not-checked", {}, unsaid_rating},
    {"acceptance of nothing", "idle-accept", {}, idle_accept},
};

}  // namespace

std::span<const Mistake> mistakes_of_wiring() { return table; }

}  // namespace loomleaf::test
