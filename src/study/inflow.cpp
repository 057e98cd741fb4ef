#include "inflow.h"

#include <algorithm>

namespace loomleaf {

Microamperes InflowFinder::into(NodeId node, const std::vector<BranchId>& removed,
                                const std::vector<bool>& is_removed) {
  const std::size_t own = network_.lumps().group_of(node);
  std::vector<std::size_t> parted{own};
  for (const BranchId branch : removed)
    if (network_.conducts_freely(branch)) parted.push_back(network_.lumps().group_of(circuit_.branches[branch].a));
  std::sort(parted.begin() + 1, parted.end());
  parted.erase(std::unique(parted.begin() + 1, parted.end()), parted.end());

  std::vector<PieceOfLump> pieces;
  for (const std::size_t lump : parted) {
    if (lump == own && !pieces.empty()) continue;
    const NodeId first = lump == own ? node : network_.lumps().node_at(network_.lumps().group(lump).first);
    std::vector<PieceOfLump> more = pieces_of(lump, first, is_removed);
    pieces.insert(pieces.end(), more.begin(), more.end());
  }
  return search_.into_piece(pieces, {}).most;
}

// The piece that `first` lies in stands first.
std::vector<PieceOfLump> InflowFinder::pieces_of(std::size_t lump, NodeId first,
                                                 const std::vector<bool>& is_removed) const {
  const BridgeForest& lumps = network_.lumps();
  const WalkSpan span = lumps.group(lump);
  std::vector<bool> seen(span.last - span.first, false);
  std::vector<PieceOfLump> pieces;
  const auto spread = [&](NodeId start) {
    if (seen[lumps.position(start) - span.first]) return;
    seen[lumps.position(start) - span.first] = true;
    PieceOfLump piece;
    std::vector<NodeId> open{start};
    while (!open.empty()) {
      const std::size_t at = lumps.position(open.back());
      const NodeId node = open.back();
      open.pop_back();
      const WalkSpan ports = network_.ports_in({at, at + 1});
      for (std::size_t port = ports.first; port < ports.last; ++port) piece.push_back(port);
      for (const BranchId id : circuit_.at[node]) {
        if (is_removed[id.value] || !network_.conducts_freely(id)) continue;
        const Branch& branch = circuit_.branches[id];
        const NodeId other = branch.a == node ? branch.b : branch.a;
        if (seen[lumps.position(other) - span.first]) continue;
        seen[lumps.position(other) - span.first] = true;
        open.push_back(other);
      }
    }
    if (!piece.empty() || pieces.empty()) pieces.push_back(std::move(piece));
  };
  spread(first);
  for (std::size_t position = span.first; position < span.last; ++position) spread(lumps.node_at(position));
  return pieces;
}

}  // namespace loomleaf
