// What flows in at a point when some conductors and contacts are taken away.
#pragma once

#include <vector>

#include "fault_flow.h"

namespace loomleaf {

class InflowFinder {
 public:
  InflowFinder(const Circuit& circuit, const FaultNetwork& network)
      : circuit_(circuit), network_(network), search_(network) {}

  // `is_removed`: by branch; `removed` lists the same.
  Microamperes into(NodeId node, const std::vector<BranchId>& removed, const std::vector<bool>& is_removed);

 private:
  std::vector<PieceOfLump> pieces_of(std::size_t lump, NodeId first, const std::vector<bool>& is_removed) const;

  const Circuit& circuit_;
  const FaultNetwork& network_;
  FaultFlowSearch search_;
};

}  // namespace loomleaf
