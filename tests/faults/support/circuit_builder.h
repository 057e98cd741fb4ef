// Builds the final circuits of a sound plan, one kind after the other.
#pragma once

#include <map>

#include "faults/support/sound_plan.h"
#include "support/dice.h"

namespace loomleaf::test {

class CircuitBuilder {
 public:
  CircuitBuilder(SoundPlan& plan, Dice& dice) : plan_(plan), dice_(dice) {}

  // Where the next circuits hang.
  struct Panel {
    std::string plus, minus, place;
    int volt = 12;
    std::string sense;  // a terminal that a signal wire may start from; empty: none
  };
  // What all its loads draw together, or a charger gives, whichever is more, is in the circuit's `ampere`.
  SoundCircuit add(CircuitKind kind, const Panel& panel);

  int conductors() const { return conductors_; }
  const std::map<std::string, int>& ends_on_buses() const { return ends_; }
  // For whoever builds what stands before the circuits.
  std::string name(const std::string& stem);
  std::string wire(const std::string& from, const std::string& to, const std::string& size, bool is_return,
                   double metre);
  void count_end(const std::string& bus) { ++ends_[bus]; }

 private:
  using Pieces = std::vector<std::pair<std::string, std::string>>;
  void item(const std::string& keyword, const std::string& id, Pieces pieces, const std::string& at);
  std::string cable(const std::string& from, const std::string& to, const std::string& size, double metre);
  void begin(SoundCircuit& circuit, const Panel& panel, double ampere, double metre, bool surges = false);
  std::string load(SoundCircuit& circuit, const std::string& what, double watt, Pieces more, const std::string& at);
  std::string contact(SoundCircuit& circuit, const std::string& keyword, Pieces more, const std::string& at);
  std::string splice(SoundCircuit& circuit, int ways, const std::string& at);
  void feed(SoundCircuit& circuit, const std::string& from, const std::string& to, double metre);
  void back(SoundCircuit& circuit, const std::string& from, const std::string& to, double metre);
  void room(SoundCircuit& circuit, const Panel& panel, double metre);

  void lamps_on_splices(SoundCircuit& circuit, const Panel& panel);
  void lamps_in_a_chain(SoundCircuit& circuit, const Panel& panel);
  void pump(SoundCircuit& circuit, const Panel& panel);
  void two_way_lamp(SoundCircuit& circuit, const Panel& panel);
  void relay(SoundCircuit& circuit, const Panel& panel);
  void plug(SoundCircuit& circuit, const Panel& panel);
  void converter(SoundCircuit& circuit, const Panel& panel);
  void charger(SoundCircuit& circuit, const Panel& panel);
  void sockets(SoundCircuit& circuit, const Panel& panel);
  void heater(SoundCircuit& circuit, const Panel& panel);
  void monitor(SoundCircuit& circuit, const Panel& panel);
  void ring(SoundCircuit& circuit, const Panel& panel);
  void branches(SoundCircuit& circuit, const Panel& panel);
  void spare(SoundCircuit& circuit, const Panel& panel);

  SoundPlan& plan_;
  Dice& dice_;
  std::map<std::string, int> count_, ends_;
  int conductors_ = 0;
};

}  // namespace loomleaf::test
