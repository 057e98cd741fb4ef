#include "fault_stages.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace loomleaf {
namespace {

// Of the main devices of several supplies few open alone. So many networks without them are kept, and made in all: of
// what needs more, all at once stands.
constexpr std::size_t most_openings = 64, most_made = 512, most_stages = 8;

struct Heat {
  double ampere2_s = 0.0, seconds = 0.0;
  double last_A = 0.0;    // in the last stage in which it carries too much
  std::size_t stage = 0;  // the last that is counted
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
  if (made_ == most_made) return nullptr;
  if (later_.size() == most_openings) later_.clear();
  ++made_;
  return &later_.try_emplace(opened, plan_, circuit_, stock_, supplies_, figures_, opened).first->second;
}

bool StageFinder::carries_for_ever(const LoopPiece& piece) const {
  const std::optional<ConductorId> conductor = circuit_.branches[piece.branch].conductor;
  return conductor && figures_[*conductor].ampacity && amperes(piece.ampere) <= *figures_[*conductor].ampacity;
}

// Nothing opens before what ends it all.
bool StageFinder::opens_at_once(const FaultLoop& stage) {
  const Opens& first = stage.first;
  return first.devices.empty() || !(first.after_s < stage.cut.after_s) || is_alike(first.after_s, stage.cut.after_s);
}

FaultLoop StageFinder::in_stages(const FaultLoop& at_once, const ShortPlace& place,
                                 const std::vector<ShortedEnd>& shorted) {
  if (opens_at_once(at_once)) return at_once;
  std::vector<FaultLoop> stages{at_once};
  std::vector<BranchId> opened;
  Cut cut;
  double elapsed_s = 0.0;
  bool carries_no_less = true;  // what ends it, in any stage, than in the first
  while (true) {
    const FaultLoop& stage = stages.back();
    const Opens& first = stage.first;
    const bool is_last = opens_at_once(stage);
    if (stages.size() > most_stages || !stage.no_curve.empty() || !stage.cut.guarded) return at_once;
    carries_no_less = carries_no_less && stage.cut.by == at_once.cut.by &&
                      (stage.cut.ampere > at_once.cut.ampere || is_alike(stage.cut.ampere, at_once.cut.ampere));
    elapsed_s += is_last ? stage.cut.after_s : first.after_s;
    cut = stage.cut;
    if (is_last) break;
    opened.insert(opened.end(), first.devices.begin(), first.devices.end());
    std::sort(opened.begin(), opened.end());
    LoopFinder* finder = without(opened);
    if (!finder) return at_once;
    auto next = finder->find(place, shorted);
    if (!next) {  // nothing feeds it any more
      cut = {elapsed_s, true, first.devices, first.times, first.ampere};
      break;
    }
    stages.push_back(std::move(*next));
  }
  cut.after_s = carries_no_less ? std::min(at_once.cut.after_s, elapsed_s) : elapsed_s;
  return added_up(stages, cut, carries_no_less);
}

// The heat of all stages, each conductor's as a steady current.
FaultLoop StageFinder::added_up(const std::vector<FaultLoop>& stages, const Cut& cut, bool carries_no_less) const {
  std::map<BranchId, Heat> heats;
  FaultLoop loop = stages.front();
  loop.in_stages = true;
  loop.cut = cut;
  std::map<BranchId, double> at_most_s;
  for (const LoopPiece& piece : loop.pieces) at_most_s.emplace(piece.branch, piece.lasts_s);
  double elapsed_s = 0.0;
  for (std::size_t count = 1; count <= stages.size(); ++count) {
    const FaultLoop& stage = stages[count - 1];
    const bool is_last = opens_at_once(stage);
    for (const LoopPiece& piece : stage.pieces) {
      if (carries_for_ever(piece)) continue;
      Heat& heat = heats[piece.branch];
      if (std::exchange(heat.stage, count) == count) continue;  // listed twice
      double lasts_s = is_last ? piece.lasts_s : std::min(piece.lasts_s, stage.first.after_s);
      const auto most = at_most_s.find(piece.branch);
      if (most == at_most_s.end())
        loop.pieces.push_back(piece);
      else if (carries_no_less)
        lasts_s = std::min(lasts_s, std::max(most->second - elapsed_s, 0.0));
      at_most_s.emplace(piece.branch, Cut{}.after_s);
      heat.ampere2_s += piece.ampere * piece.ampere * lasts_s;
      heat.seconds += lasts_s;
      heat.last_A = piece.ampere;
    }
    elapsed_s += is_last ? stage.cut.after_s : stage.first.after_s;
  }
  for (LoopPiece& piece : loop.pieces) {
    const Heat& heat = heats[piece.branch];
    const bool ends = std::isfinite(heat.seconds);
    piece.ampere = ends && heat.seconds > 0.0 ? std::sqrt(heat.ampere2_s / heat.seconds) : heat.last_A;
    piece.lasts_s = heat.seconds;
  }
  return loop;
}

}  // namespace loomleaf
