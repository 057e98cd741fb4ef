#include "fault_stages.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace loomleaf {
namespace {

// Of the main devices of several supplies few open alone; of a network that has more, all at once stands.
constexpr std::size_t most_openings = 64, most_stages = 8;

struct Heat {
  double ampere2_s = 0.0, seconds = 0.0;
  double last_A = 0.0;     // in the last stage in which it carries too much
  std::size_t stage = 0;   // the last that is counted
  double at_most_s = 0.0;  // from the beginning: what is left carries no less later on, and opens no later
};

}  // namespace

StageFinder::StageFinder(const Plan& plan, const Circuit& circuit, const Stock& stock, const FaultSupplies& supplies,
                         const IndexedList<ConductorOf, ConductorFigures>& figures)
    : plan_(plan),
      circuit_(circuit),
      stock_(stock),
      supplies_(supplies),
      figures_(figures),
      whole_(plan, circuit, stock, supplies, figures) {}

LoopFinder* StageFinder::without(const std::vector<BranchId>& opened) {
  const auto found = later_.find(opened);
  if (found != later_.end()) return &found->second;
  if (later_.size() == most_openings) return nullptr;
  return &later_.try_emplace(opened, plan_, circuit_, stock_, supplies_, figures_, opened).first->second;
}

bool StageFinder::carries_for_ever(const LoopPiece& piece) const {
  const std::optional<ConductorId> conductor = circuit_.branches[piece.branch].conductor;
  return conductor && figures_[*conductor].ampacity && amperes(piece.ampere) <= *figures_[*conductor].ampacity;
}

FaultLoop StageFinder::in_stages(const FaultLoop& at_once, const ShortPlace& place,
                                 const std::vector<ShortedEnd>& shorted) {
  std::vector<BranchId> opened;
  std::map<BranchId, Heat> heats;
  for (const LoopPiece& piece : at_once.pieces) heats[piece.branch].at_most_s = piece.lasts_s;
  double elapsed_s = 0.0;
  FaultLoop stage = at_once;
  for (std::size_t count = 1;; ++count) {
    const Opens& first = stage.first;
    const bool is_last =
        first.devices.empty() || !(first.after_s < stage.cut.after_s) || is_alike(first.after_s, stage.cut.after_s);
    if (count > most_stages || !stage.no_curve.empty() || !stage.cut.guarded) return at_once;
    if (is_last && count == 1) return at_once;
    for (const LoopPiece& piece : stage.pieces) {
      if (carries_for_ever(piece)) continue;
      Heat& heat = heats[piece.branch];
      if (std::exchange(heat.stage, count) == count) continue;  // listed twice
      const double stage_s = is_last ? piece.lasts_s : std::min(piece.lasts_s, first.after_s);
      const double lasts_s = std::min(stage_s, std::max(heat.at_most_s - elapsed_s, 0.0));
      heat.ampere2_s += piece.ampere * piece.ampere * lasts_s;
      heat.seconds += lasts_s;
      heat.last_A = piece.ampere;
    }
    elapsed_s += is_last ? stage.cut.after_s : first.after_s;
    if (is_last) break;
    opened.insert(opened.end(), first.devices.begin(), first.devices.end());
    std::sort(opened.begin(), opened.end());
    LoopFinder* finder = without(opened);
    if (!finder) return at_once;
    const auto next = finder->find(place, shorted);
    if (!next) {  // nothing feeds it any more
      stage.cut.by = first.devices;
      break;
    }
    stage = *next;
  }
  FaultLoop loop = at_once;
  loop.in_stages = true;
  loop.cut = stage.cut;
  loop.cut.after_s = std::min(at_once.cut.after_s, elapsed_s);
  for (LoopPiece& piece : loop.pieces) {
    const Heat& heat = heats[piece.branch];
    const bool ends = std::isfinite(heat.seconds);
    piece.ampere = ends && heat.seconds > 0.0 ? std::sqrt(heat.ampere2_s / heat.seconds) : heat.last_A;
    piece.lasts_s = heat.seconds;
  }
  return loop;
}

}  // namespace loomleaf
