// Plans examined with the project's own templates, and the figures of their short circuits by name.
#pragma once

#include <string>

#include "loomleaf/command/examine.h"

namespace loomleaf::test {

class Shorted {
 public:
  // Fails the running test where the plan is not understood.
  explicit Shorted(const std::string& text);

  double ohm(const std::string& branch) const;          // of a conductor or a device
  double prospective(const std::string& device) const;  // A; not a number where there is none
  std::vector<std::string> before(const std::string& device) const;
  double at_far_end(const std::string& conductor) const;  // A; not a number where there is none
  double clears(const std::string& conductor) const;      // s; infinite where perhaps never
  const LastingShort* lasting(const std::string& subject) const;
  std::vector<std::string> names(const std::vector<ItemId>& items) const;

  ItemId item(const std::string& id) const;
  ConductorId conductor(const std::string& id) const;

  Examination seen;
};

// A battery, a fuse and one load, out and back.
inline constexpr const char* one_circuit = R"(
system 12 V rules rv
source BAT 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 2 kA
fuse F1 10 A blade
load X 24 W
wire W1 BAT+ to F1 12 AWG red 400 mm
wire W2 F1 to X+ 12 AWG red 3 m
wire W3 X- to BAT- 12 AWG black 3 m
)";
inline constexpr double battery_ohm = 12.8 / 2000;

}  // namespace loomleaf::test
