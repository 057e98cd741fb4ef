#include "generated_plan.h"

#include <fmt/format.h>

#include "support/dice.h"

namespace loomleaf::test {
namespace {

class PlanWriter {
 public:
  explicit PlanWriter(unsigned seed) : dice_(seed) {}

  std::vector<std::string> run(int circuits) {
    say("plan \"Generated\"");
    say("system 12 V rules rv");
    say("place P1 \"Under the floor\" cover \"Floor panel\"");
    say("source BAT \"House battery\" 12.8 V 100 Ah short-circuit 2 kA");
    say("fuse F0 100 A class-t");
    say("bus PB \"Fuse block\" 200 A");
    say("bus NB \"Negative bus\" 200 A");
    wire("BAT+", "F0");
    wire("F0", "PB");
    wire("NB", "BAT-");
    if (dice_.below(2) == 0) {
      say("source ALT alternator 14.4 V limit 60 A");
      say("fuse FA 80 A class-t on PB");
      wire("ALT+", "FA");
      wire("ALT-", "NB");
    }
    say("chassis HULL");
    say(fmt::format("wire BW NB to HULL 8 AWG green/yellow 1 m bond"));
    for (int i = 1; i <= circuits; ++i) circuit(i);
    return std::move(lines_);
  }

 private:
  void say(std::string line) { lines_.push_back(std::move(line)); }
  std::string wire_name() { return fmt::format("W{}", ++wires_); }
  void wire(const std::string& from, const std::string& to, const std::string& more = "") {
    static constexpr const char* colours[] = {"red", "black", "white", "yellow/red", "blue", "grey"};
    say(fmt::format("wire {} {} to {} 14 AWG {} 1.2 m {}", wire_name(), from, to, colours[dice_.below(6)], more));
  }
  void pair(const std::string& from, const std::string& to) {
    say(fmt::format("cable K{} {} to {} 2x14 AWG cores red, black 2.4 m", ++cables_, from, to));
  }

  std::string load(int circuit, int number) {
    static constexpr const char* kinds[] = {"Reading lamp", "Water pump, the loud one behind the second bulkhead",
                                            "Cabin heater", "12 V socket",
                                            "Radio",        "Gas alarm"};
    const std::string id = fmt::format("L{}x{}", circuit, number);
    say(fmt::format("load {} \"{}\" 10 W at P1 {} m{}", id, kinds[dice_.below(6)], number,
                    dice_.below(9) == 0 ? " later" : ""));
    return id;
  }

  void circuit(int i) {
    const std::string f = fmt::format("F{}", i);
    say(fmt::format("{} {} \"Circuit number {}\" 10 A {} on PB", dice_.below(4) == 0 ? "breaker" : "fuse", f, i,
                    dice_.below(4) == 0 ? "" : "blade"));
    switch (dice_.below(8)) {
      case 0:
        chain(i, f);
        break;
      case 1:
        branches(i, f);
        break;
      case 2:
        changeover(i, f);
        break;
      case 3:
        relay(i, f);
        break;
      case 4:
        connector(i, f);
        break;
      case 5:
        converter(i, f);
        break;
      case 6:
        ring(i, f);
        break;
      default:
        through_the_hull(i, f);
        break;
    }
  }

  void chain(int i, const std::string& f) {
    const int length = 1 + dice_.below(12);
    std::string at = f + ", NB";
    for (int k = 1; k <= length; ++k) {
      const std::string next = load(i, k);
      pair(at, next);
      at = next;
    }
  }
  void branches(int i, const std::string& f) {
    say(fmt::format("dimmer D{} \"Dimmer\" 8 A", i));
    say(fmt::format("splice SP{0}, SN{0} \"Lamp splice\" 9 ways 30 A", i));
    pair(f + ", NB", fmt::format("D{}", i));
    pair(fmt::format("D{}", i), fmt::format("SP{0}, SN{0}", i));
    for (int k = 1; k <= 2 + dice_.below(5); ++k) pair(fmt::format("SP{0}, SN{0}", i), load(i, k));
  }
  void changeover(int i, const std::string& f) {
    say(fmt::format("switch SA{0}, SB{0} \"Two-way switch\" 10 A 2 ways drawn way 2", i));
    const std::string lamp = load(i, 1);
    wire(f, fmt::format("SA{}.in", i));
    wire(fmt::format("SA{}.out1", i), fmt::format("SB{}.out1", i));
    wire(fmt::format("SA{}.out2", i), fmt::format("SB{}.out2", i));
    wire(fmt::format("SB{}.in", i), lamp + "+");
    wire(lamp + "-", "NB");
  }
  void relay(int i, const std::string& f) {
    say(fmt::format("relay R{} contact 30 A coil 2 W", i));
    say(fmt::format("switch S{} \"Helm switch\" 5 A", i));
    const std::string a = load(i, 1), b = load(i, 2);
    wire(f, fmt::format("R{}.30", i));
    wire(f, fmt::format("S{}.in", i));
    wire(fmt::format("S{}.out", i), fmt::format("R{}.86", i));
    wire(fmt::format("R{}.85", i), "NB");
    wire(fmt::format("R{}.87", i), a + "+");
    wire(fmt::format("R{}.87a", i), b + "+");
    wire(a + "-", "NB");
    wire(b + "-", "NB");
    wire(a + "+", b + "+", "signal");
  }
  void connector(int i, const std::string& f) {
    say(fmt::format("connector X{} \"Trailer plug\" 7 poles 15 A", i));
    say(fmt::format("tail T{} \"Spare core\"", i));
    const std::string a = load(i, 1), b = load(i, 2);
    wire(f, fmt::format("X{}.in1", i));
    wire("NB", fmt::format("X{}.in3", i));
    wire(f, fmt::format("X{}.in4", i));
    wire(fmt::format("X{}.out1", i), a + "+");
    wire(fmt::format("X{}.out4", i), b + "+");
    wire(fmt::format("X{}.out3", i), a + "-");
    wire(a + "-", b + "-");
    wire(fmt::format("X{}.out7", i), fmt::format("T{}", i));
  }
  void converter(int i, const std::string& f) {
    say(fmt::format("converter CV{} in 12 V out 24 V 5 A", i));
    say(fmt::format("bus QB{0}, MB{0} 20 A", i));
    pair(f + ", NB", fmt::format("CV{}", i));
    pair(fmt::format("CV{}", i), fmt::format("QB{0}, MB{0}", i));
    for (int k = 1; k <= 1 + dice_.below(4); ++k) pair(fmt::format("QB{0}, MB{0}", i), load(i, k));
  }
  void ring(int i, const std::string& f) {
    const std::string a = load(i, 1), b = load(i, 2), c = load(i, 3);
    pair(f + ", NB", a);
    pair(a, b);
    pair(b, c);
    pair(c, a);
    wire(f + ".in", b + "+");
  }
  void through_the_hull(int i, const std::string& f) {
    say(fmt::format("switch S{} \"Double-pole switch\" 10 A 2 poles", i));
    const std::string a = load(i, 1);
    wire(f, fmt::format("S{}.1.in", i));
    wire(fmt::format("S{}.1.out", i), a + "+");
    wire(a + "-", fmt::format("S{}.2.in", i));
    wire(fmt::format("S{}.2.out", i), "HULL");
  }

  Dice dice_;
  std::vector<std::string> lines_;
  int wires_ = 0, cables_ = 0;
};

}  // namespace

std::vector<std::string> generated_plan(unsigned seed, int circuits) { return PlanWriter(seed).run(circuits); }

std::vector<std::string> tangle(unsigned seed, int wires) {
  Dice dice(seed);
  std::vector<std::string> lines{"system 12 V rules rv",
                                 "source BAT 12 V 50 Ah short-circuit 1 kA",
                                 "bus B1, B2, B3 50 A",
                                 "fuse F1..F4 10 A blade",
                                 "switch S1, S2 10 A",
                                 "switch S3 10 A 3 ways",
                                 "dimmer D1, D2 5 A",
                                 "relay R1 contact 10 A coil 1 W",
                                 "converter C1 in 12 V out 12 V 5 A",
                                 "load L1..L6 \"Lamp\" 5 W",
                                 "splice J1..J4 20 A",
                                 "chassis H1",
                                 "tail T1, T2",
                                 "connector X1 3 poles 10 A"};
  const std::vector<std::string> ends{
      "BAT+",    "BAT-",   "B1",     "B2",      "B3",      "F1.in",   "F1.out",  "F2.in", "F2.out",  "F3.in",
      "F3.out",  "F4.in",  "F4.out", "S1.in",   "S1.out",  "S2.in",   "S2.out",  "S3.in", "S3.out1", "S3.out2",
      "S3.out3", "D1.in+", "D1.in-", "D1.out+", "D1.out-", "D2.in+",  "D2.out-", "R1.30", "R1.87",   "R1.87a",
      "R1.85",   "R1.86",  "C1.in+", "C1.in-",  "C1.out+", "C1.out-", "L1+",     "L1-",   "L2+",     "L2-",
      "L3+",     "L3-",    "L4+",    "L4-",     "L5+",     "L6-",     "J1",      "J2",    "J3",      "J4",
      "H1",      "T1",     "T2",     "X1.in1",  "X1.out1", "X1.in2",  "X1.out3"};
  for (int i = 1; i <= wires; ++i) {
    const int count = static_cast<int>(ends.size());
    const int a = dice.below(count), b = (a + 1 + dice.below(count - 1)) % count;
    lines.push_back(fmt::format("wire W{} {} to {} 16 AWG red 1 m", i, ends[static_cast<std::size_t>(a)],
                                ends[static_cast<std::size_t>(b)]));
  }
  return lines;
}

std::string shuffled(std::vector<std::string> statements, unsigned seed) {
  Dice(seed).shuffle(statements);
  return joined(statements);
}

std::string joined(const std::vector<std::string>& statements) {
  std::string text;
  for (const std::string& line : statements) text += line + "\n";
  return text;
}

}  // namespace loomleaf::test
