#include "return_blocks.h"

#include <algorithm>

namespace loomleaf {
namespace {

constexpr std::size_t none = static_cast<std::size_t>(-1);

struct Step {
  std::size_t vertex;
  std::optional<BranchId> came_by;
  std::size_t node_at = 0, branch_at = 0;
};

}  // namespace

ReturnBlocks::ReturnBlocks(const Circuit& circuit, const Ways& ways, const IndexedList<NodeOf, bool>& is_return,
                           const IndexedList<NodeOf, bool>& roots)
    : circuit_(circuit), ways_(ways), visit_of_(circuit.nodes.size(), none) {
  // Vertex 0 stands for all roots: supplies that are joined elsewhere make them one.
  vertices_.emplace_back();
  for (const NodeId node : circuit_.nodes.ids())
    if (roots[node] && is_return[node]) {
      visit_of_[node] = 0;
      vertices_[0].nodes.push_back(node);
    }
  walk(is_return);
  form_blocks();
}

// Depth-first search (Hopcroft and Tarjan 1973).
void ReturnBlocks::walk(const IndexedList<NodeOf, bool>& is_return) {
  std::vector<Step> steps{{0, std::nullopt}};
  while (!steps.empty()) {
    Step& step = steps.back();
    if (step.node_at == vertices_[step.vertex].nodes.size()) {
      const std::size_t done = step.vertex;
      vertices_[done].last = vertices_.size();
      steps.pop_back();
      if (steps.empty()) break;
      Vertex& before = vertices_[steps.back().vertex];
      before.low = std::min(before.low, vertices_[done].low);
      continue;
    }
    const NodeId node = vertices_[step.vertex].nodes[step.node_at];
    if (step.branch_at == circuit_.at[node].size()) {
      ++step.node_at;
      step.branch_at = 0;
      continue;
    }
    const BranchId id = circuit_.at[node][step.branch_at++];
    const Branch& branch = circuit_.branches[id];
    const NodeId next = branch.a == node ? branch.b : branch.a;
    if (!is_return[next] || !conducts(circuit_, id, ways_) || id == step.came_by) continue;
    if (visit_of_[next] != none) {
      vertices_[step.vertex].low = std::min(vertices_[step.vertex].low, visit_of_[next]);
      continue;
    }
    visit_of_[next] = vertices_.size();
    vertices_.push_back({step.vertex, vertices_.size(), 0, {next}});
    steps.push_back({visit_of_[next], id});
  }
}

void ReturnBlocks::form_blocks() {
  block_of_.resize(vertices_.size());
  for (std::size_t v = 0; v < vertices_.size(); ++v) {
    const bool begins = v == 0 || vertices_[v].low >= vertices_[v].parent;
    block_of_[v] = begins ? head_.size() : block_of_[vertices_[v].parent];
    if (begins) head_.push_back(v);
  }
}

// The one that was visited later.
std::size_t ReturnBlocks::further_end(const Branch& branch) const {
  if (visit_of_[branch.a] == none || visit_of_[branch.b] == none) return none;
  return std::max(visit_of_[branch.a], visit_of_[branch.b]);
}

IndexedList<BranchOf, Served> ReturnBlocks::served(const IndexedList<NodeOf, Served>& at) const {
  std::vector<Served> by_block(head_.size());
  for (std::size_t v = vertices_.size(); v-- > 0;) {
    Served& served = by_block[block_of_[v]];
    for (const NodeId node : vertices_[v].nodes) served.add(at[node]);
    if (v > 0 && head_[block_of_[v]] == v) by_block[block_of_[vertices_[v].parent]].add(served);
  }
  IndexedList<BranchOf, Served> served(circuit_.branches.size());
  for (const BranchId id : circuit_.branches.ids()) {
    const std::size_t vertex = further_end(circuit_.branches[id]);
    if (vertex != none && conducts(circuit_, id, ways_)) served[id] = by_block[block_of_[vertex]];
  }
  return served;
}

}  // namespace loomleaf
