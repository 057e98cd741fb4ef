#include "faults/support/circuit_builder.h"

#include <fmt/format.h>

#include <algorithm>

namespace loomleaf::test {

namespace {

std::string positive(const std::string& terminal) { return terminal + "+"; }
std::string negative(const std::string& terminal) { return terminal + "-"; }

}  // namespace

std::string CircuitBuilder::name(const std::string& stem) { return stem + std::to_string(++count_[stem]); }

std::string CircuitBuilder::wire(const std::string& from, const std::string& to, const std::string& size,
                                 bool is_return, double metre) {
  const std::string id = name("W");
  plan_.statements.add_wire(id, from, to, size, is_return ? "black" : "red", metre > 0.0 ? metre_text(metre) : "");
  count_end(from);
  count_end(to);
  ++conductors_;
  return id;
}

std::string CircuitBuilder::cable(const std::string& from, const std::string& to, const std::string& size,
                                  double metre) {
  const std::string id = name("C");
  plan_.statements.add("cable", id,
                       {{"from", from},
                        {"to", "to " + to},
                        {"size", size},
                        {"cores", "cores red, black"},
                        {"length", metre > 0.0 ? metre_text(metre) : ""}});
  conductors_ += 2;
  return id;
}

void CircuitBuilder::item(const std::string& keyword, const std::string& id, Pieces pieces, const std::string& at) {
  pieces.emplace_back("at", "at " + at);
  plan_.statements.add(keyword, id, std::move(pieces));
}

// Its device on the panel, and the size of all its wires: `ampere` over `metre` one way.
void CircuitBuilder::begin(SoundCircuit& circuit, const Panel& panel, double ampere, double metre, bool surges) {
  circuit.plus = panel.plus;
  circuit.minus = panel.minus;
  circuit.volt = panel.volt;
  circuit.ampere = ampere;
  const bool breaker = circuit.kind == CircuitKind::heater && panel.volt < 30;
  const std::string family = breaker ? "breaker-panel" : small_family(panel.volt);
  circuit.rating = device_rating(family, std::max(1.0, ampere * (surges ? 2.0 : 1.4)));
  circuit.size = wire_size(plan_.rulebook, circuit.rating, ampere, 2.0 * metre, 0.02 * panel.volt);
  circuit.device = name("F");
  plan_.statements.add(breaker ? "breaker" : "fuse", circuit.device,
                       {{"what", "\"Circuit\""},
                        {"rating", ampere_text(circuit.rating)},
                        {"family", family},
                        {"on", "on " + panel.plus}});
  count_end(panel.plus);
}

std::string CircuitBuilder::load(SoundCircuit& circuit, const std::string& what, double watt, Pieces more,
                                 const std::string& at) {
  const std::string id = name("LD");
  Pieces pieces = {{"what", fmt::format("\"{}\"", what)},
                   {"power", fmt::format("{:g} W", watt)},
                   {"rated", fmt::format("{} V", circuit.volt)}};
  pieces.insert(pieces.end(), more.begin(), more.end());
  item("load", id, std::move(pieces), at);
  circuit.loads.push_back(id);
  return id;
}

std::string CircuitBuilder::contact(SoundCircuit& circuit, const std::string& keyword, Pieces more,
                                    const std::string& at) {
  const std::string id = name(keyword == "dimmer" ? "D" : "S");
  Pieces pieces = {{"rating", fmt::format("{} A", contact_rating(circuit.ampere * 1.25))}};
  if (keyword == "switch") pieces.emplace_back("volt", "60 V");
  pieces.insert(pieces.end(), more.begin(), more.end());
  item(keyword, id, std::move(pieces), at);
  circuit.contacts.push_back(id);
  return id;
}

std::string CircuitBuilder::splice(SoundCircuit& circuit, int ways, const std::string& at) {
  const std::string id = name(circuit.splices.size() % 2 == 0 ? "SP" : "SN");
  item("splice", id,
       {{"ways", fmt::format("{} ways", ways)},
        {"rating", fmt::format("{} A", contact_rating(circuit.ampere * 1.25))},
        {"takes", "takes 0.5..25 mm2"}},
       at);
  circuit.splices.push_back(id);
  return id;
}

void CircuitBuilder::feed(SoundCircuit& circuit, const std::string& from, const std::string& to, double metre) {
  circuit.feed.push_back(wire(from, to, circuit.size, false, metre));
}
void CircuitBuilder::back(SoundCircuit& circuit, const std::string& from, const std::string& to, double metre) {
  circuit.back.push_back(wire(from, to, circuit.size, true, metre));
}

// A place of its own behind a lining that comes off, and a conduit that leads there.
void CircuitBuilder::room(SoundCircuit& circuit, const Panel& panel, double metre) {
  circuit.place = name("ROOM");
  circuit.leg = name("LEG");
  plan_.statements.add("place", circuit.place, {{"cover", "cover \"Lining\""}, {"removable", "removable"}});
  plan_.statements.add(
      "leg", circuit.leg,
      {{"between", panel.place + " to " + circuit.place}, {"length", metre_text(metre)}, {"conduit", "conduit 40 mm"}});
}

void CircuitBuilder::lamps_on_splices(SoundCircuit& circuit, const Panel& panel) {
  const double metre = dice_.between(2, 5);
  const int lamps = dice_.between(2, 4);
  const double watt = dice_.between(2, 6);
  begin(circuit, panel, 2 * lamps * watt / panel.volt, metre + 1.0 + lamps);
  room(circuit, panel, metre);
  const std::string dimmer = contact(circuit, "dimmer", {}, circuit.place + " 0.2 m");
  const std::string middle = fmt::format("{} {:.1f} m", circuit.place, 1.0 + lamps * 0.5);
  const std::string sp = splice(circuit, 3, middle), sn = splice(circuit, 3, middle);
  const std::string pair = sp + ", " + sn;
  circuit.cables.push_back(cable(circuit.device + ", " + panel.minus, dimmer, circuit.size, 0));
  count_end(panel.minus);
  circuit.cables.push_back(cable(dimmer, pair, circuit.size, 0));
  for (const int side : {-1, 1}) {
    std::string from = pair;
    for (int i = 1; i <= lamps; ++i) {
      const double at = 1.0 + lamps * 0.5 + side * 0.4 * i;
      const std::string lamp =
          load(circuit, "Lamp", watt, {{"hours", "4 h/day"}}, fmt::format("{} {:.1f} m", circuit.place, at));
      circuit.cables.push_back(cable(from, lamp, circuit.size, 0));
      from = lamp;
    }
  }
}

void CircuitBuilder::lamps_in_a_chain(SoundCircuit& circuit, const Panel& panel) {
  const int lamps = dice_.between(2, 4);
  const double watt = dice_.between(2, 8), metre = 0.5 * dice_.between(2, 8);
  begin(circuit, panel, lamps * watt / panel.volt, metre + 0.5 + lamps);
  const std::string contact_id = contact(circuit, "switch", {}, panel.place);
  feed(circuit, circuit.device, contact_id, metre);
  std::string before = contact_id, last_minus;
  std::vector<std::string> returns;
  for (int i = 1; i <= lamps; ++i) {
    const std::string lamp = load(circuit, "Lamp", watt, {}, panel.place);
    const std::string on = wire(before, positive(lamp), circuit.size, false, i == 1 ? 0.5 : 1.0);
    if (i == 1)
      circuit.feed.push_back(on);
    else
      wire(negative(lamp), last_minus, circuit.size, true, 1.0);
    if (i == 1) back(circuit, negative(lamp), panel.minus, metre + 0.5);
    before = positive(lamp);
    last_minus = negative(lamp);
  }
}

void CircuitBuilder::pump(SoundCircuit& circuit, const Panel& panel) {
  const double metre = dice_.between(1, 6), watt = panel.volt * dice_.between(2, 5);
  begin(circuit, panel, watt / panel.volt, metre + 1.0, true);
  room(circuit, panel, metre);
  const std::string contact_id = contact(circuit, "switch", {}, circuit.place + " 0.2 m");
  const std::string motor =
      load(circuit, "Pump", watt,
           {{"kind", "motor"}, {"surge", panel.volt < 30 ? "surge 2.5x 0.1 s" : ""}, {"use", "use 50 %"}},
           circuit.place + " 0.7 m");
  feed(circuit, circuit.device, contact_id, 0);
  feed(circuit, contact_id, positive(motor), 0);
  back(circuit, negative(motor), panel.minus, 0);
}

void CircuitBuilder::two_way_lamp(SoundCircuit& circuit, const Panel& panel) {
  const double watt = dice_.between(3, 12), metre = 0.5 * dice_.between(3, 8);
  begin(circuit, panel, watt / panel.volt, 2 * metre);
  const std::string near = contact(circuit, "switch", {{"ways", "2 ways"}}, panel.place);
  const std::string far = contact(circuit, "switch", {{"ways", "2 ways"}}, panel.place);
  const std::string lamp = load(circuit, "Lamp", watt, {}, panel.place);
  feed(circuit, circuit.device, near + ".in", 0.6);
  wire(near + ".out1", far + ".out1", circuit.size, false, metre);
  wire(near + ".out2", far + ".out2", circuit.size, false, metre);
  feed(circuit, far + ".in", positive(lamp), 0.6);
  back(circuit, negative(lamp), panel.minus, metre);
}

void CircuitBuilder::relay(SoundCircuit& circuit, const Panel& panel) {
  const double watt = panel.volt * dice_.between(4, 10), metre = 0.5 * dice_.between(2, 8);
  begin(circuit, panel, watt / panel.volt + 0.2, metre + 0.5);
  const std::string relay_id = name("R");
  item("relay", relay_id, {{"contact", "contact 30 A"}, {"coil", "coil 2 W"}}, panel.place);
  circuit.others.push_back(relay_id);
  const std::string contact_id = contact(circuit, "switch", {}, panel.place);
  const std::string heavy = load(circuit, "Winch", watt, {{"kind", "motor"}}, panel.place);
  circuit.feed.push_back(wire(circuit.device, relay_id + ".30", circuit.size, false, 0.5));
  wire(relay_id + ".30", contact_id + ".in", circuit.size, false, 0.3);
  wire(contact_id + ".out", relay_id + ".86", circuit.size, false, 0.3);
  wire(relay_id + ".85", panel.minus, circuit.size, true, 0.5);
  feed(circuit, relay_id + ".87", positive(heavy), metre);
  back(circuit, negative(heavy), panel.minus, metre);
}

void CircuitBuilder::plug(SoundCircuit& circuit, const Panel& panel) {
  const double watt = dice_.between(5, 20), metre = 0.5 * dice_.between(2, 8);
  begin(circuit, panel, 2 * watt / panel.volt, metre + 2.0);
  const std::string plug_id = name("X");
  item("connector", plug_id, {{"poles", "3 poles"}, {"rating", "30 A"}, {"takes", "takes 0.5..25 mm2"}}, panel.place);
  circuit.others.push_back(plug_id);
  const std::string one = load(circuit, "Trailer lamp", watt, {}, panel.place);
  const std::string two = load(circuit, "Trailer fan", watt, {{"kind", "motor"}}, panel.place);
  feed(circuit, circuit.device, plug_id + ".in1", metre);
  feed(circuit, plug_id + ".out1", positive(one), 1.0);
  wire(positive(one), positive(two), circuit.size, false, 1.0);
  wire(negative(two), negative(one), circuit.size, true, 1.0);
  back(circuit, negative(one), plug_id + ".out2", 1.0);
  back(circuit, plug_id + ".in2", panel.minus, metre);
}

void CircuitBuilder::converter(SoundCircuit& circuit, const Panel& panel) {
  const int out = panel.volt == 12 ? dice_.one_of<int>({5, 19, 24}) : 12;
  const double rated = dice_.between(2, 5), metre = 0.5 * dice_.between(2, 6);
  begin(circuit, panel, rated * out / panel.volt / 0.9, metre);
  const std::string id = name("DC");
  item("converter", id,
       {{"in", fmt::format("in {} V", panel.volt)},
        {"out", fmt::format("out {} V", out)},
        {"rating", ampere_text(rated)},
        {"efficiency", "efficiency 90 %"},
        {"isolated", dice_.chance(50) ? "isolated" : ""}},
       panel.place);
  circuit.others.push_back(id);
  circuit.cables.push_back(cable(circuit.device + ", " + panel.minus, id, circuit.size, metre));
  count_end(panel.minus);
  const int outside = circuit.volt;
  circuit.volt = out;
  const std::string size = wire_size(plan_.rulebook, rated, rated, 3.0, 0.02 * out);
  std::string from = id;
  for (int i = 0; i < 2; ++i) {
    const std::string user =
        load(circuit, "Computer", 0.4 * rated * out, {{"use", i == 1 ? "use 60 %" : ""}}, panel.place);
    circuit.cables.push_back(cable(from, user, size, 0.7));
    from = user;
  }
  circuit.volt = outside;
}

void CircuitBuilder::charger(SoundCircuit& circuit, const Panel& panel) {
  const double limit = dice_.between(3, 12), metre = 0.5 * dice_.between(2, 6);
  begin(circuit, panel, limit, metre);
  const std::string id = name("CH");
  item("source", id,
       {{"what", "\"Solar controller\""},
        {"kind", "solar"},
        {"volt", fmt::format("{:g} V", panel.volt * 1.18)},
        {"limit", "limit " + ampere_text(limit)},
        {"yield", "yield 400 Wh/day"}},
       panel.place);
  circuit.others.push_back(id);
  feed(circuit, positive(id), circuit.device, metre);
  back(circuit, negative(id), panel.minus, metre);
}

void CircuitBuilder::sockets(SoundCircuit& circuit, const Panel& panel) {
  const double watt = 10.0 * dice_.between(1, 3), metre = 0.5 * dice_.between(2, 6);
  begin(circuit, panel, 3 * watt / panel.volt, metre + 2.0);
  std::string from = circuit.device + ", " + panel.minus;
  count_end(panel.minus);
  for (int i = 0; i < 3; ++i) {
    const std::string socket = load(circuit, "Socket", watt, {{"use", "use 40 %"}}, panel.place);
    circuit.cables.push_back(cable(from, socket, circuit.size, i == 0 ? metre : 1.0));
    from = socket;
  }
}

void CircuitBuilder::heater(SoundCircuit& circuit, const Panel& panel) {
  const double watt = panel.volt * dice_.between(2, 6), metre = 0.5 * dice_.between(2, 8);
  begin(circuit, panel, watt / panel.volt, metre + 0.5);
  const std::string contact_id = contact(circuit, "switch", {{"poles", "2 poles"}}, panel.place);
  const std::string warm =
      load(circuit, "Heating mat", watt, {{"kind", "resistive"}, {"hours", "8 h/day"}}, panel.place);
  feed(circuit, circuit.device, contact_id + ".1.in", 0.5);
  feed(circuit, contact_id + ".1.out", positive(warm), metre);
  back(circuit, negative(warm), contact_id + ".2.in", metre);
  back(circuit, contact_id + ".2.out", panel.minus, 0.5);
}

void CircuitBuilder::monitor(SoundCircuit& circuit, const Panel& panel) {
  begin(circuit, panel, 3.0 / panel.volt, 3.0);
  const std::string id = load(circuit, "Monitor", 3.0,
                              {{"kind", "constant-current"},
                               {"hours", "24 h/day"},
                               {"min", fmt::format("min {:g} V", panel.volt * 0.8)},
                               {"tails", fmt::format("tails {} 150 mm", thinnest_wire(plan_.rulebook))},
                               {"also", "also data"}},
                              panel.place);
  feed(circuit, circuit.device, positive(id), 3.0);
  back(circuit, negative(id), panel.minus, 3.0);
  if (panel.sense.empty()) return;
  const std::string signal = wire(panel.sense, id + ".data", circuit.size, false, 2.0);
  plan_.statements.of(signal).tell("signal", "signal");
}

void CircuitBuilder::ring(SoundCircuit& circuit, const Panel& panel) {
  const int lamps = dice_.between(3, 5);
  const double watt = dice_.between(2, 6);
  begin(circuit, panel, lamps * watt / panel.volt, 2.0 + lamps);
  const std::string start = load(circuit, "Lamp", watt, {}, panel.place);
  circuit.cables.push_back(cable(circuit.device + ", " + panel.minus, start, circuit.size, 2.0));
  count_end(panel.minus);
  std::string from = start;
  for (int i = 1; i < lamps; ++i) {
    const std::string lamp = load(circuit, "Lamp", watt, {}, panel.place);
    circuit.cables.push_back(cable(from, lamp, circuit.size, 1.0));
    from = lamp;
  }
  circuit.cables.push_back(cable(from, start, circuit.size, 1.5));
}

void CircuitBuilder::branches(SoundCircuit& circuit, const Panel& panel) {
  const int lamps = dice_.between(2, 4);
  const double watt = panel.volt * 0.5 * dice_.between(1, 5), metre = 0.5 * dice_.between(2, 8);
  begin(circuit, panel, lamps * watt / panel.volt, metre + 1.0);
  const std::string sp = splice(circuit, lamps + 1, panel.place), sn = splice(circuit, lamps + 1, panel.place);
  feed(circuit, circuit.device, sp, metre);
  for (int i = 0; i < lamps; ++i) {
    const std::string lamp = load(circuit, "Lamp", watt, {}, panel.place);
    const std::string out = wire(sp, positive(lamp), circuit.size, false, 1.0);
    const std::string home = wire(negative(lamp), sn, circuit.size, true, 1.0);
    circuit.others.push_back(out);
    circuit.others.push_back(home);
  }
  back(circuit, sn, panel.minus, metre);
}

void CircuitBuilder::spare(SoundCircuit& circuit, const Panel& panel) {
  begin(circuit, panel, 0.5, 1.0);
  const std::string tail = name("TL");
  item("tail", tail, {}, panel.place);
  circuit.others.push_back(tail);
  circuit.others.push_back(wire(circuit.device, tail, circuit.size, false, 1.0));
  circuit.ampere = 0.0;
}

SoundCircuit CircuitBuilder::add(CircuitKind kind, const Panel& panel) {
  using Build = void (CircuitBuilder::*)(SoundCircuit&, const Panel&);
  static constexpr Build builders[circuit_kinds] = {&CircuitBuilder::lamps_on_splices,
                                                    &CircuitBuilder::lamps_in_a_chain,
                                                    &CircuitBuilder::pump,
                                                    &CircuitBuilder::two_way_lamp,
                                                    &CircuitBuilder::relay,
                                                    &CircuitBuilder::plug,
                                                    &CircuitBuilder::converter,
                                                    &CircuitBuilder::charger,
                                                    &CircuitBuilder::sockets,
                                                    &CircuitBuilder::heater,
                                                    &CircuitBuilder::monitor,
                                                    &CircuitBuilder::ring,
                                                    &CircuitBuilder::branches,
                                                    &CircuitBuilder::spare};
  SoundCircuit circuit;
  circuit.kind = kind;
  (this->*builders[static_cast<std::size_t>(kind)])(circuit, panel);
  return circuit;
}

}  // namespace loomleaf::test
