#include "working/support/generated_plan.h"

#include <fmt/format.h>

#include <random>
#include <string_view>
#include <vector>

namespace loomleaf::test {
namespace {

// Where something may be joined: its feed and its return.
struct Pair {
  std::string plus, minus;
};

class Generator {
 public:
  explicit Generator(std::uint32_t seed) : random_(seed) {}

  std::string plan() {
    system_volt_ = chance(50) ? 12 : 24;
    const char* const temperatures[] = {"", " conductor 20 C", " conductor 50 C"};
    add("plan \"Generated\"");
    add("system {} V rules rv{}", system_volt_, temperatures[pick(3)]);
    const std::string battery_minus = add_batteries();
    add("bus PB 200 A");
    add("bus NB 200 A");
    add("fuse F0 100 A {}", chance(50) ? "class-t" : "");
    add("switch S0 200 A");
    wire(battery_plus_, "F0", "16 mm2");
    wire("F0", "S0", "16 mm2");
    wire("S0", "PB", "16 mm2");
    wire("NB", battery_minus, "16 mm2");
    if (chance(30)) wire("NB", battery_minus, "10 mm2");
    const int circuits = 1 + pick(5);
    for (int i = 0; i < circuits; ++i) add_circuit();
    if (chance(60)) add_converter();
    if (chance(50)) add_charger();
    if (chance(30)) add_charging_converter(battery_minus);
    if (chance(30)) {
      add("load ST 1000 W starter on {}", battery_minus);
      wire(battery_plus_, "ST+", "35 mm2");
    }
    return std::move(text_);
  }

 private:
  template <class... Values>
  void add(fmt::format_string<Values...> form, Values&&... values) {
    text_ += fmt::format(form, std::forward<Values>(values)...);
    text_ += '\n';
  }
  int pick(int below) { return static_cast<int>(random_() % static_cast<std::uint32_t>(below)); }
  bool chance(int percent) { return pick(100) < percent; }
  std::string name(std::string_view stem) { return fmt::format("{}{}", stem, ++count_); }

  void wire(const std::string& from, const std::string& to, std::string_view size) {
    add("wire {} {} to {} {} red {} mm", name("W"), from, to, size, 200 + 10 * pick(200));
  }
  void wire(const std::string& from, const std::string& to) {
    const char* const sizes[] = {"1.5 mm2", "2.5 mm2", "4 mm2", "14 AWG", "12 AWG", "10 AWG"};
    wire(from, to, sizes[pick(6)]);
  }

  std::string add_batteries() {
    const double low = system_volt_ - 0.1 * pick(8);
    // By what is drawn already, so that the rest of a seed's plan is as it would be without.
    const std::string high = low < system_volt_ - 0.3 ? fmt::format("high {} V", 1.2 * system_volt_) : "";
    battery_plus_ = "BA+";
    switch (pick(4)) {
      case 0:
        add("source BA {} V low {} V {} 100 Ah", system_volt_, low, high);
        return "BA-";
      case 1:
        add("source BA {} V low {} V {} 100 Ah", system_volt_, low, high);
        add("source BB {} V 80 Ah", system_volt_);
        wire("BA+", "BB+", "16 mm2");
        wire("BA-", "BB-", "16 mm2");
        return chance(50) ? "BA-" : "BB-";
      case 2:
        add("source BA, BB {} V low {} V 100 Ah", system_volt_ / 2, low / 2);
        wire("BA-", "BB+", "16 mm2");
        return "BB-";
      default:
        add("source BA {} V low {} V {} 100 Ah", system_volt_, low, high);
        add("source BB {} V 100 Ah", system_volt_);
        add("switch S1 200 A 2 ways {}", low < system_volt_ - 0.5 ? "both" : "");
        wire("BA+", "S1.out1", "16 mm2");
        wire("BB+", "S1.out2", "16 mm2");
        wire("BA-", "BB-", "16 mm2");
        battery_plus_ = "S1.in";
        return "BA-";
    }
  }

  std::string add_fuse() {
    const std::string fuse = name("F");
    const char* const families[] = {"", "blade", "midi"};
    add("fuse {} 30 A {} on PB", fuse, families[pick(3)]);
    return fuse;
  }

  // Whatever stands between the fuse and the first splice.
  Pair add_head(Pair from) {
    switch (pick(5)) {
      case 0: {
        const std::string dimmer = name("D");
        add("dimmer {} 20 A", dimmer);
        wire(from.plus, dimmer + ".in+");
        wire(from.minus, dimmer + ".in-");
        return {dimmer + ".out+", dimmer + ".out-"};
      }
      case 1: {
        const std::string plug = name("X");
        add("connector {} 2 poles 20 A", plug);
        wire(from.plus, plug + ".in1");
        wire(from.minus, plug + ".in2");
        return {plug + ".out1", plug + ".out2"};
      }
      case 2: {
        const std::string relay = name("R");
        add("relay {} contact 30 A coil 2 W", relay);
        wire(from.plus, relay + ".30");
        wire(from.minus, relay + ".85", "1.5 mm2");
        wire("PB", relay + ".86", "1.5 mm2");
        return {relay + ".87", from.minus};
      }
      case 3: {
        const std::string contact = name("S");
        add("switch {} 20 A", contact);
        wire(from.plus, contact);
        return {contact, from.minus};
      }
      default:
        return from;
    }
  }

  void add_load(const Pair& at, const std::string& volt) {
    const std::string load = name("L");
    const char* const kinds[] = {"electronic", "resistive", "motor", "constant-current"};
    const char* const shares[] = {"", "", "use 50 %", "use 25 %", "efficiency 80 %", "continuous"};
    const std::string asks = chance(70) ? fmt::format("{} W", 1 + pick(20)) : fmt::format("{} mA", 100 + 50 * pick(20));
    add("load {} {} {} {} {}", load, asks, kinds[pick(4)], shares[pick(6)], volt);
    wire(at.plus, load + "+");
    wire(load + "-", at.minus);
  }

  // Splices in pairs, each hung on one before it; loads on them; now and then a ring or a second wire beside.
  void add_tree(const Pair& head, const std::string& volt) {
    std::vector<Pair> pairs;
    const int splices = 1 + pick(5);
    for (int i = 0; i < splices; ++i) {
      const Pair at{name("SP"), name("SN")};
      add("splice {}, {}", at.plus, at.minus);
      const Pair from = pairs.empty() ? head : pairs[static_cast<std::size_t>(pick(static_cast<int>(pairs.size())))];
      wire(from.plus, at.plus);
      wire(at.minus, from.minus);
      pairs.push_back(at);
    }
    if (pairs.size() > 2 && chance(40)) wire(pairs.front().plus, pairs.back().plus);
    if (pairs.size() > 1 && chance(30)) wire(pairs[0].minus, pairs[1].minus);
    const int loads = 1 + pick(4);
    for (int i = 0; i < loads; ++i) add_load(pairs[static_cast<std::size_t>(pick(splices))], volt);
  }

  void add_circuit() { add_tree(add_head({add_fuse(), "NB"}), ""); }

  void add_converter() {
    const std::string converter = name("DC");
    const int volt = system_volt_ == 24 ? 12 : 5;
    add("converter {} in {} V out {} V 10 A {} {}", converter, system_volt_, volt, chance(50) ? "efficiency 90 %" : "",
        chance(50) ? "isolated" : "");
    wire(add_fuse(), converter + ".in+", "6 mm2");
    wire(converter + ".in-", "NB", "6 mm2");
    add_tree({converter + ".out+", converter + ".out-"}, chance(50) ? fmt::format("{} V", volt) : "");
  }

  void add_charger() {
    const std::string charger = name("CH");
    add("source {} solar {} V limit {} A", charger, system_volt_ + 2, 5 + pick(15));
    wire(charger + "+", add_fuse());
    wire(charger + "-", "NB");
  }

  void add_charging_converter(const std::string& battery_minus) {
    const std::string converter = name("DC"), battery = name("B");
    add("source {} 12 V 50 Ah", battery);
    add("converter {} in {} V out 14 V {} A isolated", converter, system_volt_, 2 + pick(8));
    wire(add_fuse(), converter + ".in+", "6 mm2");
    wire(converter + ".in-", battery_minus, "6 mm2");
    wire(converter + ".out+", battery + "+", "6 mm2");
    wire(converter + ".out-", battery + "-", "6 mm2");
    add_load({battery + "+", battery + "-"}, "12 V");
  }

  std::mt19937 random_;
  std::string text_;
  int count_ = 0;
  int system_volt_ = 12;
  std::string battery_plus_;
};

}  // namespace

std::string generated_plan(std::uint32_t seed) { return Generator(seed).plan(); }

}  // namespace loomleaf::test
