// Which return branches serve one final circuit alone.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

// Whom something serves: nobody, one circuit (by label), or several.
class Served {
 public:
  static Served one(std::size_t label) { return Served{label, false}; }
  static Served several() { return Served{std::nullopt, true}; }
  Served() = default;

  void add(const Served& other) {
    if (other.several_ || (label_ && other.label_ && *label_ != *other.label_)) several_ = true;
    if (!label_) label_ = other.label_;
  }
  bool is_several() const { return several_; }
  std::optional<std::size_t> only() const { return several_ ? std::nullopt : label_; }

 private:
  Served(std::optional<std::size_t> label, bool several) : label_(label), several_(several) {}
  std::optional<std::size_t> label_;
  bool several_ = false;
};

// For every branch of the return side, whom it serves: all that returns beyond it, seen from the supplies' -. Branches
// that stand side by side in a ring serve alike. `at` says whom each node serves by itself, `roots` where the supplies'
// - are. Branches elsewhere serve nobody.
IndexedList<BranchOf, Served> returns_served(const Circuit& circuit, const Ways& ways,
                                             const IndexedList<NodeOf, bool>& is_return,
                                             const IndexedList<NodeOf, bool>& roots,
                                             const IndexedList<NodeOf, Served>& at);

}  // namespace loomleaf
