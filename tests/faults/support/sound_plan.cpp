#include "faults/support/sound_plan.h"

#include <fmt/format.h>

#include <algorithm>

#include "faults/support/circuit_builder.h"
#include "support/dice.h"

namespace loomleaf::test {

namespace {

// The most that a panel and a bank of batteries feed, in watts: 60 A and 150 A at 12 V.
constexpr double panel_watt = 500, bank_watt = 1200;
// Plans up to this size have one bank and no panels.
constexpr int small_plan = 150;

class SoundBuilder {
 public:
  SoundBuilder(unsigned seed, int conductors)
      : dice_(seed), builder_(plan_, dice_), wanted_(conductors), panelled_(conductors > small_plan) {}

  SoundPlan build() {
    plan_.rulebook = dice_.one_of<std::string>({"rv", "marine", "metric"});
    system_volt_ = dice_.one_of<int>({12, 12, 24, 48});
    const bool mixed = panelled_ && dice_.chance(50);
    plan_.statements.add("plan", "", {{"title", "\"Sound\""}});
    plan_.statements.add("system", "",
                         {{"volts", mixed ? "12 V, 24 V, 48 V" : fmt::format("{} V", system_volt_)},
                          {"rules", "rules " + plan_.rulebook},
                          {"drop", mixed || system_volt_ == 12 ? "drop 8 %" : "drop 5 %"}});
    plan_.statements.add("default", "", {{"of", "wire insulation 105 C"}});
    plan_.statements.add("default", "", {{"of", "cable insulation 105 C"}});
    plan_.statements.add("chassis", "HULL", {{"what", "\"Hull\""}});
    do {
      add_bank(mixed ? dice_.one_of<int>({12, 24, 48}) : system_volt_);
    } while (builder_.conductors() < wanted_);
    for (const std::string& bus : buses_)
      plan_.statements.of(bus).tell("ways", fmt::format("{} ways", builder_.ends_on_buses().at(bus) + 1));
    return std::move(plan_);
  }

 private:
  struct Demand {
    double ampere = 0.0, charge = 0.0;
    double most() const { return std::max(1.35 * ampere, 1.3 * charge); }
  };

  void add_bank(int volt) {
    SoundBank bank;
    bank.volt = volt;
    const std::string place = builder_.name("LOCKER");
    plan_.statements.add("place", place, {});
    bank.bus = bus("PB");
    bank.return_bus = bus("NB");
    const bool shunted = dice_.chance(50);
    const std::string shunt = shunted ? builder_.name("SH") : "";
    if (!plan_.banks.empty()) add_link(plan_.banks.back(), bank, place);
    Demand demand = add_circuits(bank, place, shunted ? shunt + ".sense" : "");
    if (linked_ > 0.0) demand.charge += linked_;
    linked_ = 0.0;
    bank.ampere = demand.ampere;
    bank.rating = device_rating(large_family(), std::max(30.0, demand.most()));
    add_batteries(bank, place);
    add_mains(bank, place, shunt);
    rate_bus(bank.bus, demand.most(), place);
    rate_bus(bank.return_bus, demand.most(), place);
    bank.bond = builder_.wire(bank.return_bus, "HULL", bond_size(bank), true, 1.0);
    plan_.statements.of(bank.bond).tell("colour", "green/yellow");
    plan_.statements.of(bank.bond).tell("bond", "bond");
    plan_.banks.push_back(std::move(bank));
  }

  // As thick as the bank's other lead, and 8 AWG at least where the book asks for that.
  std::string bond_size(const SoundBank& bank) const {
    const std::string size = main_size(bank);
    const bool is_thinner = size == "10 AWG" || size == "12 AWG" || size == "14 AWG";
    return plan_.rulebook == "rv" && is_thinner ? "8 AWG" : size;
  }

  std::string bus(const std::string& stem) {
    const std::string id = builder_.name(stem);
    plan_.statements.add("bus", id, {});
    buses_.push_back(id);
    return id;
  }
  void rate_bus(const std::string& id, double ampere, const std::string& place) {
    Statement& statement = plan_.statements.of(id);
    statement.tell("rating", fmt::format("{} A", contact_rating(ampere)));
    statement.tell("at", "at " + place);
  }

  // Straight on the bank in a small plan, else on panels.
  Demand add_circuits(const SoundBank& bank, const std::string& place, const std::string& sense) {
    Demand demand;
    if (!panelled_) {
      add_panel({bank.bus, bank.return_bus, place, bank.volt, sense}, bank_watt, wanted_ - 9, demand);
      return demand;
    }
    while (demand.most() * bank.volt < bank_watt - panel_watt && builder_.conductors() < wanted_)
      add_fed_panel(bank, demand);
    return demand;
  }

  void add_fed_panel(const SoundBank& bank, Demand& demand) {
    const std::string plus = bus("QB"), minus = bus("MB"), place = builder_.name("PANEL");
    plan_.statements.add("place", place, {});
    Demand own;
    add_panel({plus, minus, place, bank.volt, ""}, panel_watt, wanted_, own);
    const double rating = device_rating(large_family(), std::max(30.0, own.most()));
    const double metre = 0.5 * dice_.between(2, 8);
    const std::string size =
        wire_size(plan_.rulebook, rating, std::max(own.ampere, own.charge), 2 * metre, 0.008 * bank.volt);
    const std::string fuse = builder_.name("F");
    plan_.statements.add(
        "fuse", fuse,
        {{"what", "\"Panel\""}, {"rating", ampere_text(rating)}, {"family", large_family()}, {"on", "on " + bank.bus}});
    builder_.count_end(bank.bus);
    builder_.wire(fuse, plus, size, false, metre);
    builder_.wire(minus, bank.return_bus, size, true, metre);
    rate_bus(plus, own.most(), place);
    rate_bus(minus, own.most(), place);
    demand.ampere += own.ampere;
    demand.charge += own.charge;
  }

  // Circuits in a new order of their kinds each round, up to the watts and conductors given.
  void add_panel(const CircuitBuilder::Panel& panel, double watt, int conductors, Demand& demand) {
    for (int count = 0; count < 3 || (count < 16 && builder_.conductors() < conductors); ++count) {
      if (demand.most() * panel.volt > 0.8 * watt) break;
      SoundCircuit circuit = builder_.add(next_kind(), panel);
      (circuit.kind == CircuitKind::charger ? demand.charge : demand.ampere) += circuit.ampere;
      plan_.circuits.push_back(std::move(circuit));
    }
  }

  CircuitKind next_kind() {
    if (deck_.empty()) {
      for (int kind = 0; kind < circuit_kinds; ++kind) deck_.push_back(static_cast<CircuitKind>(kind));
      dice_.shuffle(deck_);
    }
    const CircuitKind kind = deck_.back();
    deck_.pop_back();
    return kind;
  }

  std::string add_battery(const std::string& id, double nominal, const SoundBank& bank, const std::string& place) {
    plan_.statements.add("source", id,
                         {{"volt", fmt::format("{:g} V", nominal * 1.0667)},
                          {"low", fmt::format("low {:g} V", nominal)},
                          {"high", fmt::format("high {:g} V", nominal * 1.2)},
                          {"charge", "200 Ah"},
                          {"max", "max " + ampere_text(bank.rating)},
                          {"short-circuit", fmt::format("short-circuit {} kA", 2 + dice_.below(3))},
                          {"at", "at " + place}});
    return id;
  }

  // One battery, two side by side, or two in series.
  void add_batteries(SoundBank& bank, const std::string& place) {
    const std::string size = main_size(bank);
    const int kind = dice_.below(3);
    const std::string first = builder_.name("BA");
    bank.batteries = {first};
    bank.plus = first + "+";
    bank.minus = first + "-";
    add_battery(first, kind == 2 ? bank.volt / 2.0 : bank.volt, bank, place);
    if (kind == 0) return;
    const std::string second = builder_.name("BA");
    bank.batteries.push_back(second);
    add_battery(second, kind == 2 ? bank.volt / 2.0 : bank.volt, bank, place);
    if (kind == 1) {
      builder_.wire(first + "+", second + "+", size, false, 0.05);
      builder_.wire(first + "-", second + "-", size, true, 0.05);
    } else {
      builder_.wire(first + "-", second + "+", size, false, 0.05);
      bank.minus = second + "-";
    }
  }

  std::string main_size(const SoundBank& bank) const {
    return wire_size(plan_.rulebook, bank.rating, bank.rating / 1.35, 1.6, 0.012 * bank.volt);
  }

  void add_mains(SoundBank& bank, const std::string& place, const std::string& shunt) {
    const std::string size = main_size(bank);
    bank.fuse = builder_.name("F");
    bank.isolator = builder_.name("S");
    plan_.statements.add("fuse", bank.fuse,
                         {{"what", "\"Main\""},
                          {"rating", ampere_text(bank.rating)},
                          {"family", large_family()},
                          {"at", "at " + place}});
    plan_.statements.add("switch", bank.isolator,
                         {{"what", "\"Isolator\""},
                          {"rating", fmt::format("{} A", contact_rating(bank.rating))},
                          {"volt", "60 V"},
                          {"at", "at " + place}});
    bank.lead = builder_.wire(bank.plus, bank.fuse, size, false, 0.12);
    bank.to_isolator = builder_.wire(bank.fuse, bank.isolator, size, false, 0.3);
    bank.to_bus = builder_.wire(bank.isolator, bank.bus, size, false, 0.3);
    if (shunt.empty()) {
      bank.back = builder_.wire(bank.return_bus, bank.minus, size, true, 0.5);
      return;
    }
    plan_.statements.add("shunt", shunt,
                         {{"rating", fmt::format("{} A", contact_rating(bank.rating))},
                          {"ohm", "0.2 mohm"},
                          {"also", "also sense"},
                          {"at", "at " + place}});
    bank.back = builder_.wire(bank.return_bus, shunt, size, true, 0.3);
    builder_.wire(shunt, bank.minus, size, true, 0.2);
  }

  // A converter that charges the bank from the one before.
  void add_link(const SoundBank& from, const SoundBank& to, const std::string& place) {
    if (dice_.chance(50)) return;
    constexpr double rated = 10.0;
    linked_ = rated;
    const std::string id = builder_.name("DC");
    plan_.statements.add("converter", id,
                         {{"in", fmt::format("in {} V", from.volt)},
                          {"out", fmt::format("out {:g} V", to.volt * 1.18)},
                          {"rating", ampere_text(rated)},
                          {"isolated", "isolated"},
                          {"at", "at " + place}});
    const double taken = rated * to.volt * 1.18 / from.volt / 0.85;
    if (taken > 0.2 * from.rating) {
      plan_.statements.of(id).tell("rating", ampere_text(1));
      linked_ = 1.0;
    }
    const double drawn = taken * linked_ / rated;
    join_by_fuse(from.bus, from.return_bus, id + ".in+", id + ".in-", std::max(1.0, 1.4 * drawn), from.volt);
    join_by_fuse(to.bus, to.return_bus, id + ".out+", id + ".out-", 1.4 * linked_, to.volt);
  }
  void join_by_fuse(const std::string& bus, const std::string& minus_bus, const std::string& plus,
                    const std::string& minus, double ampere, int volt) {
    const std::string family = ampere > 25 ? large_family() : small_family(volt);
    const double rating = device_rating(family, ampere);
    const std::string size = wire_size(plan_.rulebook, rating, ampere, 4.0, 0.03 * volt);
    const std::string fuse = builder_.name("F");
    plan_.statements.add(
        "fuse", fuse, {{"what", "\"Link\""}, {"rating", ampere_text(rating)}, {"family", family}, {"on", "on " + bus}});
    builder_.count_end(bus);
    builder_.wire(fuse, plus, size, false, 2.0);
    builder_.wire(minus, minus_bus, size, true, 2.0);
  }

  SoundPlan plan_;
  Dice dice_;
  CircuitBuilder builder_;
  int wanted_;
  bool panelled_;
  int system_volt_ = 12;
  std::vector<std::string> buses_;
  std::vector<CircuitKind> deck_;
  double linked_ = 0.0;
};

}  // namespace

SoundPlan sound_plan(unsigned seed, int conductors) { return SoundBuilder(seed, conductors).build(); }

}  // namespace loomleaf::test
