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

// The blocks of the return side, seen from the supplies' -, which are taken as one: what hangs on the rest by one node
// alone, that node itself not counted. A branch lies in the block of its further end; branches that stand side by side
// in a ring lie in one.
class ReturnBlocks {
 public:
  // `roots` says where the supplies' - are.
  ReturnBlocks(const Circuit& circuit, const Ways& ways, const IndexedList<NodeOf, bool>& is_return,
               const IndexedList<NodeOf, bool>& roots);

  // For every branch whom it serves: all that returns beyond it. `at` says whom each node serves by itself. Branches
  // elsewhere serve nobody.
  IndexedList<BranchOf, Served> served(const IndexedList<NodeOf, Served>& at) const;

 private:
  struct Vertex {
    std::size_t parent = 0;     // vertex
    std::size_t low = 0;        // the first vertex that is reached from here and beyond without the parent's branch
    std::size_t last = 0;       // one past the last vertex beyond
    std::vector<NodeId> nodes;  // one, or all roots
  };
  void walk(const IndexedList<NodeOf, bool>& is_return);
  void form_blocks();
  std::size_t further_end(const Branch& branch) const;  // vertex; none where it is elsewhere

  const Circuit& circuit_;
  const Ways& ways_;
  IndexedList<NodeOf, std::size_t> visit_of_;  // the vertex of each node
  std::vector<Vertex> vertices_;               // in the order of their visits
  std::vector<std::size_t> block_of_, head_;   // by vertex; by block
};

}  // namespace loomleaf
