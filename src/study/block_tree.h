// The blocks of a side of the network: pieces that stay in one when any single node is taken out of them.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "bridge_forest.h"
#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

// Corners are the nodes of a block, counted from the one that the walk entered it by; of a plain ring they follow each
// other round it. Whatever is joined to a block is so at one corner of it, and hangs there.
class BlockTree {
 public:
  // Of the nodes in `is_in` and what conducts between them.
  BlockTree(const Circuit& circuit, const Ways& ways, const IndexedList<NodeOf, bool>& is_in);

  // Nothing for branches elsewhere.
  std::optional<std::size_t> block_of(BranchId branch) const;
  std::size_t corner_count(std::size_t block) const { return blocks_[block].corners.size() + 1; }
  // Whether its only way round is by all its corners in turn. Branches side by side count as one.
  bool is_plain_ring(std::size_t block) const;
  // Of a node of the block.
  std::size_t corner_of(std::size_t block, NodeId node) const;

  // Nodes in an order in which those that hang on the block at one corner, or at several in a row but the first, are
  // neighbours; nodes elsewhere stand last.
  const IndexedList<NodeOf, std::size_t>& places() const { return places_; }
  // What hangs on the block at the corners from `first` to `last`, themselves among it.
  WalkRange hanging_at(std::size_t block, std::size_t first, std::size_t last) const;
  // And at all its others.
  WalkRange hanging_elsewhere(std::size_t block, std::size_t first, std::size_t last) const;

 private:
  struct Vertex {
    NodeId node;
    std::size_t parent = 0;  // vertex; of the first of a part itself
    std::size_t low = 0;     // the first vertex that is reached from here and beyond without the parent's branch
    std::size_t block = 0;   // that of the way to its parent
    WalkSpan hanging;        // places of it and of what hangs on it but for the block of the way to its parent
    std::vector<std::size_t> blocks;  // that it is the entry to
  };
  struct Block {
    std::size_t entry = 0;             // vertex
    std::vector<std::size_t> corners;  // vertices, all but the entry
    WalkSpan beyond;                   // places of all but the entry and what hangs on it elsewhere
    WalkSpan part;                     // of all that hangs together with it
    std::size_t links = 0;             // between two corners
  };
  void walk_from(NodeId start, const IndexedList<NodeOf, bool>& is_in);
  void form_blocks();
  void place_part(std::size_t first);
  void count_links();
  WalkSpan span_of(const Block& block, std::size_t first, std::size_t last) const;  // without the entry

  const Circuit& circuit_;
  const Ways& ways_;
  IndexedList<NodeOf, std::size_t> vertex_of_, places_;
  std::size_t placed_ = 0;
  std::vector<Vertex> vertices_;  // in the order of their visits
  std::vector<Block> blocks_;
};

}  // namespace loomleaf
