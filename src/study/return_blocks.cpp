#include "return_blocks.h"

#include <algorithm>

namespace loomleaf {
namespace {

constexpr std::size_t none = static_cast<std::size_t>(-1);

// Depth-first search from the roots of all parts, taken as one vertex (Hopcroft and Tarjan 1973). What hangs on the rest
// by one vertex alone is a block; that vertex itself is not counted in it. A branch lies in the block of its further end.
class BlockSearch {
 public:
  BlockSearch(const Circuit& circuit, const Ways& ways, const IndexedList<NodeOf, bool>& is_return,
              const IndexedList<NodeOf, bool>& roots, const IndexedList<NodeOf, Served>& at)
      : circuit_(circuit),
        ways_(ways),
        is_return_(is_return),
        roots_(roots),
        at_(at),
        visit_of_(circuit.nodes.size(), none) {}

  IndexedList<BranchOf, Served> search() {
    // Vertex 0 stands for all roots: supplies that are joined elsewhere make them one.
    vertices_.push_back({});
    std::vector<NodeId> root_nodes;
    for (const NodeId node : circuit_.nodes.ids())
      if (roots_[node] && is_return_[node]) {
        visit_of_[node] = 0;
        root_nodes.push_back(node);
        vertices_[0].own.add(at_[node]);
      }
    walk(root_nodes);
    form_blocks();
    IndexedList<BranchOf, Served> served(circuit_.branches.size());
    for (const BranchId id : circuit_.branches.ids()) {
      const Branch& branch = circuit_.branches[id];
      if (!conducts(circuit_, id, ways_) || visit_of_[branch.a] == none || visit_of_[branch.b] == none) continue;
      // The further end was visited later.
      served[id] = block_served_[block_of_[std::max(visit_of_[branch.a], visit_of_[branch.b])]];
    }
    return served;
  }

 private:
  struct Vertex {
    std::size_t parent = none;  // vertex
    std::size_t low = 0;
    Served own;
  };
  struct Step {
    std::size_t vertex;
    std::vector<NodeId> nodes;  // one, or all roots
    BranchId came_by;
    bool is_root;
    std::size_t node_at = 0, branch_at = 0;
  };

  void walk(const std::vector<NodeId>& roots) {
    std::vector<Step> steps{{0, roots, {}, true}};
    while (!steps.empty()) {
      Step& step = steps.back();
      if (step.node_at == step.nodes.size()) {
        const std::size_t done = step.vertex;
        steps.pop_back();
        if (!steps.empty())
          vertices_[steps.back().vertex].low = std::min(vertices_[steps.back().vertex].low, vertices_[done].low);
        continue;
      }
      const NodeId node = step.nodes[step.node_at];
      if (step.branch_at == circuit_.at[node].size()) {
        ++step.node_at;
        step.branch_at = 0;
        continue;
      }
      const BranchId id = circuit_.at[node][step.branch_at++];
      const Branch& branch = circuit_.branches[id];
      const NodeId next = branch.a == node ? branch.b : branch.a;
      if (!is_return_[next] || !conducts(circuit_, id, ways_)) continue;
      if (!step.is_root && id == step.came_by) continue;
      if (visit_of_[next] != none) {
        vertices_[step.vertex].low = std::min(vertices_[step.vertex].low, visit_of_[next]);
        continue;
      }
      visit_of_[next] = vertices_.size();
      vertices_.push_back({step.vertex, vertices_.size(), at_[next]});
      steps.push_back({visit_of_[next], {next}, id, false});
    }
  }

  void form_blocks() {
    block_of_.resize(vertices_.size());
    std::vector<std::size_t> head;  // of each block
    for (std::size_t v = 0; v < vertices_.size(); ++v) {
      const bool begins = v == 0 || vertices_[v].low >= vertices_[v].parent;
      block_of_[v] = begins ? head.size() : block_of_[vertices_[v].parent];
      if (begins) head.push_back(v);
    }
    block_served_.resize(head.size());
    for (std::size_t v = vertices_.size(); v-- > 0;) {
      Served& served = block_served_[block_of_[v]];
      served.add(vertices_[v].own);
      if (v > 0 && head[block_of_[v]] == v) block_served_[block_of_[vertices_[v].parent]].add(served);
    }
  }

  const Circuit& circuit_;
  const Ways& ways_;
  const IndexedList<NodeOf, bool>&is_return_, &roots_;
  const IndexedList<NodeOf, Served>& at_;
  IndexedList<NodeOf, std::size_t> visit_of_;  // the vertex of each node
  std::vector<Vertex> vertices_;               // in the order of their visits
  std::vector<std::size_t> block_of_;
  std::vector<Served> block_served_;
};

}  // namespace

IndexedList<BranchOf, Served> returns_served(const Circuit& circuit, const Ways& ways,
                                             const IndexedList<NodeOf, bool>& is_return,
                                             const IndexedList<NodeOf, bool>& roots,
                                             const IndexedList<NodeOf, Served>& at) {
  return BlockSearch(circuit, ways, is_return, roots, at).search();
}

}  // namespace loomleaf
