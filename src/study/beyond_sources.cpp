#include "beyond_sources.h"

namespace loomleaf {
namespace {

using PieceId = Index<struct PieceOf>;

// Nodes that exposed conductors and contacts join, taken as one.
class Pieces {
 public:
  Pieces(const Plan& plan, const Circuit& circuit, const ExposedNetwork& exposed) : piece_of_(circuit.nodes.size()) {
    for (const NodeId start : circuit.nodes.ids()) {
      if (piece_of_[start]) continue;
      const PieceId piece = pieces_.add({});
      std::vector<NodeId> open{start};
      piece_of_[start] = piece;
      while (!open.empty()) {
        const NodeId node = open.back();
        open.pop_back();
        for (const BranchId id : circuit.at[node])
          if (circuit.branches[id].kind == BranchKind::device)
            pieces_[piece].device.count(plan, *circuit.branches[id].item);
        for (const BranchId id : exposed.at(node))
          for (const NodeId next : {circuit.branches[id].a, circuit.branches[id].b}) {
            if (piece_of_[next]) continue;
            piece_of_[next] = piece;
            open.push_back(next);
          }
      }
    }
    for (const TwoPole& source : circuit.sources) pieces_[of(source.minus)].behind.push_back(of(source.plus));
  }

  PieceId of(NodeId node) const { return *piece_of_[node]; }

  // The largest device at the piece itself and at all that lies behind it.
  const LargestDevice& from(const Plan& plan, PieceId start) {
    std::optional<LargestDevice>& known = pieces_[start].from_here;
    if (known) return *known;
    known.emplace();
    std::vector<PieceId> reached{start};
    pieces_[start].seen = true;
    for (std::size_t i = 0; i < reached.size(); ++i) {
      known->count(plan, pieces_[reached[i]].device);
      for (const PieceId next : pieces_[reached[i]].behind) {
        if (pieces_[next].seen) continue;
        pieces_[next].seen = true;
        reached.push_back(next);
      }
    }
    for (const PieceId piece : reached) pieces_[piece].seen = false;
    return *known;
  }

 private:
  struct Piece {
    LargestDevice device;         // of those joined anywhere at it
    std::vector<PieceId> behind;  // where the + of the sources is whose - is here
    std::optional<LargestDevice> from_here;
    bool seen = false;  // while one search runs
  };
  IndexedList<NodeOf, std::optional<PieceId>> piece_of_;
  IndexedList<PieceOf, Piece> pieces_;
};

}  // namespace

void LargestDevice::count(const Plan& plan, ItemId device) {
  if (const auto& rated = std::get<Device>(plan.items[device].data).rating) count(plan, {device, *rated});
}

void LargestDevice::count(const Plan& plan, const LargestDevice& other) {
  if (!other.item || (item && rating > other.rating)) return;
  if (item && rating == other.rating && plan.items[*item].id <= plan.items[*other.item].id) return;
  *this = other;
}

IndexedList<NodeOf, LargestDevice> devices_beyond_sources(const Plan& plan, const Circuit& circuit,
                                                          const ExposedNetwork& exposed) {
  Pieces pieces(plan, circuit, exposed);
  IndexedList<NodeOf, LargestDevice> beyond(circuit.nodes.size());
  for (const TwoPole& source : circuit.sources)
    beyond[source.minus].count(plan, pieces.from(plan, pieces.of(source.plus)));
  return beyond;
}

}  // namespace loomleaf
