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

}  // namespace loomleaf::test
