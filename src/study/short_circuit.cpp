#include "loomleaf/study/short_circuit.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "fault_loop.h"
#include "loomleaf/study/adiabatic.h"
#include "prospective_short.h"

namespace loomleaf {
namespace {

class ShortCircuitStudy {
 public:
  ShortCircuitStudy(const Plan& plan, const Circuit& circuit, const Stock& stock,
                    const IndexedList<ConductorOf, ConductorFigures>& figures)
      : plan_(plan), circuit_(circuit), stock_(stock), figures_(figures), worst_of_(plan.conductors.size()) {
    result_.devices = IndexedList<ItemOf, std::optional<ProspectiveShort>>(plan.items.size());
    result_.conductors = IndexedList<ConductorOf, std::optional<FarShort>>(plan.conductors.size());
  }

  void take(const FaultSupplies& supplies, std::size_t ways) {
    ways_ = ways;
    unknown_batteries_.insert(supplies.unknown_batteries().begin(), supplies.unknown_batteries().end());
    const ShortPlaces places(plan_, circuit_, supplies, figures_);
    take_devices(supplies, places);
    take_conductors(supplies, places);
  }

  ShortCircuits result() {
    for (auto& lasting : worst_of_)
      if (lasting) result_.lasting.push_back(*lasting);
    result_.batteries_unknown.assign(unknown_batteries_.begin(), unknown_batteries_.end());
    result_.curves_unknown.assign(unknown_curves_.begin(), unknown_curves_.end());
    return std::move(result_);
  }

 private:
  void take_devices(const FaultSupplies& supplies, const ShortPlaces& places) {
    ProspectiveFinder finder(circuit_, supplies, places);
    for (const BranchId id : circuit_.branches.ids()) {
      const Branch& branch = circuit_.branches[id];
      if (branch.kind != BranchKind::device) continue;
      auto found = finder.at(id);
      if (!found) continue;
      found->ways = ways_;
      auto& worst = result_.devices[*branch.item];
      if (!worst || found->current > worst->current) worst = std::move(found);
    }
  }

  void take_conductors(const FaultSupplies& supplies, const ShortPlaces& places) {
    LoopFinder finder(plan_, circuit_, stock_, supplies, figures_);
    std::map<std::tuple<NodeId, NodeId, double>, std::optional<FarShort>> known;  // out and back share their short
    for (const ConductorId id : plan_.conductors.ids()) {
      const std::optional<ShortPlace> place = places.of(id);
      if (!place) continue;
      const auto [entry, is_new] = known.try_emplace({place->feed, place->back, place->way_back_ohm});
      if (is_new) {
        if (const auto loop = finder.find(*place, id)) {
          entry->second = FarShort{amperes(loop->ampere), clearing_of(*loop), ways_};
          judge(id, *place, *loop, !supplies.feed_of(place->feed).battery);
        }
      }
      if (entry->second) take_worse(result_.conductors[id], *entry->second);
    }
  }

  static std::optional<Duration> clearing_of(const FaultLoop& loop) {
    if (!loop.cut.guarded || !std::isfinite(loop.cut.after_s)) return std::nullopt;
    return seconds(loop.cut.after_s);
  }

  static void take_worse(std::optional<FarShort>& worst, const FarShort& found) {
    const auto badness = [](const FarShort& of) {
      return std::pair(of.clears ? of.clears->in(seconds) : Cut{}.after_s, -of.current.in(amperes));
    };
    if (!worst || badness(found) > badness(*worst)) worst = found;
  }

  // How much longer a piece carries its current than it bears it; nothing where it carries that for ever.
  std::optional<Duration> bears(const LoopPiece& piece) const {
    const ConductorFigures& figures = figures_[*circuit_.branches[piece.branch].conductor];
    const Current current = amperes(piece.ampere);
    if (figures.ampacity && current <= *figures.ampacity) return std::nullopt;
    return bears_for(figures.area, figures.insulation, current);
  }

  void judge(ConductorId shorted, const ShortPlace& place, const FaultLoop& loop, bool limited) {
    if (!loop.cut.guarded) return;  // no device on the way: that is a finding of its own
    const LoopPiece* hottest = nullptr;
    double most = 1.0;
    bool all_carry = true;
    for (const LoopPiece& piece : loop.pieces) {
      const Branch& branch = circuit_.branches[piece.branch];
      if (!branch.conductor) continue;
      const std::optional<Duration> limit = bears(piece);
      if (!limit) continue;
      all_carry = false;
      const double times = piece.lasts_s / limit->in(seconds);
      const bool as_hot = hottest && times == most && *branch.conductor == shorted;
      if (!(times > most) && !as_hot) continue;
      most = times;
      hottest = &piece;
    }
    // What a limited source gives for ever, and all on the way carry for ever, needs no end.
    if (!hottest && (loop.cut.after_s <= longest_short.in(seconds) || (limited && all_carry))) return;
    if (!loop.no_curve.empty()) {
      for (const BranchId id : loop.no_curve) unknown_curves_.insert(*circuit_.branches[id].item);
      return;
    }
    LastingShort lasting;
    lasting.shorted = shorted;
    lasting.at = end_of(shorted, place);
    lasting.subject = hottest ? *circuit_.branches[hottest->branch].conductor : shorted;
    lasting.overheats = hottest != nullptr;
    lasting.current = amperes(hottest ? hottest->ampere : loop.ampere);
    lasting.device = *circuit_.branches[*loop.cut.by].item;
    lasting.device_current = amperes(loop.cut.ampere);
    const double lasts_s = hottest ? hottest->lasts_s : loop.cut.after_s;
    if (std::isfinite(lasts_s)) lasting.opens = seconds(lasts_s);
    if (hottest) lasting.bears = bears(*hottest);
    lasting.ways = ways_;
    auto& worst = worst_of_[lasting.subject];
    if (!worst || weight(lasting) > weight(*worst)) worst = lasting;
  }

  static std::pair<bool, double> weight(const LastingShort& of) {
    const double lasts_s = of.opens ? of.opens->in(seconds) : Cut{}.after_s;
    return {of.overheats, of.bears ? lasts_s / of.bears->in(seconds) : lasts_s};
  }

  TerminalId end_of(ConductorId id, const ShortPlace& place) const {
    const Conductor& conductor = plan_.conductors[id];
    const NodeId end = place.at_feed_end ? place.feed : place.back;
    return circuit_.node_of[conductor.to] == end ? conductor.to : conductor.from;
  }

  const Plan& plan_;
  const Circuit& circuit_;
  const Stock& stock_;
  const IndexedList<ConductorOf, ConductorFigures>& figures_;
  std::size_t ways_ = 0;
  IndexedList<ConductorOf, std::optional<LastingShort>> worst_of_;
  std::set<ItemId> unknown_batteries_, unknown_curves_;
  ShortCircuits result_;
};

}  // namespace

ShortCircuits study_short_circuits(const Plan& plan, const Circuit& circuit, const Stock& stock,
                                   const IndexedList<ConductorOf, ConductorFigures>& conductors,
                                   const std::vector<Ways>& ways, const std::vector<Sides>& sides) {
  const BranchResistances resistances = branch_resistances(plan, circuit, stock, conductors);
  ShortCircuitStudy study(plan, circuit, stock, conductors);
  for (std::size_t w = 0; w < ways.size(); ++w)
    study.take(FaultSupplies(plan, circuit, ways[w], sides[w], resistances), w);
  return study.result();
}

}  // namespace loomleaf
