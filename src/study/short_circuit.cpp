#include "loomleaf/study/short_circuit.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
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
      : plan_(plan), circuit_(circuit), stock_(stock), figures_(figures) {
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
    join_subjects();
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

  // Out and back, and what ends side by side, share their short.
  void take_conductors(const FaultSupplies& supplies, const ShortPlaces& places) {
    LoopFinder finder(plan_, circuit_, stock_, supplies, figures_);
    std::map<std::tuple<NodeId, NodeId, double>, std::vector<ShortedEnd>> shorts;
    for (const ConductorId id : plan_.conductors.ids())
      if (const std::optional<ShortPlace> place = places.of(id))
        shorts[{place->feed, place->back, place->way_back_ohm}].push_back({id, place->at_feed_end});
    for (const auto& [at, shorted] : shorts) {
      const auto& [feed, back, way_back_ohm] = at;
      const ShortPlace place{feed, back, shorted.front().is_feed, way_back_ohm};
      const auto loop = finder.find(place, shorted);
      if (!loop) continue;
      for (const ShortedEnd& end : shorted)
        take_worse(result_.conductors[end.conductor], {amperes(loop->ampere), clearing_of(*loop), ways_});
      judge(shorted, place, *loop, !supplies.feed_of(feed).battery);
    }
  }

  static std::optional<Duration> unless_endless(double lasts_s) {
    return std::isfinite(lasts_s) ? std::optional(seconds(lasts_s)) : std::nullopt;
  }

  static std::optional<Duration> clearing_of(const FaultLoop& loop) {
    return loop.cut.guarded ? unless_endless(loop.cut.after_s) : std::nullopt;
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

  struct Hot {
    const LoopPiece* piece = nullptr;
    double times = 0.0;  // it lasts so many times as long as the piece bears it
  };

  void judge(const std::vector<ShortedEnd>& shorted, const ShortPlace& place, const FaultLoop& loop, bool limited) {
    if (!loop.cut.guarded) return;  // no device on the way: that is a finding of its own
    std::vector<Hot> hot;
    bool all_carry = true;
    for (const LoopPiece& piece : loop.pieces) {
      if (!circuit_.branches[piece.branch].conductor) continue;
      const std::optional<Duration> limit = bears(piece);
      if (!limit) continue;
      all_carry = false;
      const double times = piece.lasts_s / limit->in(seconds);
      if (times > 1.0) hot.push_back({&piece, times});
    }
    // What a limited source gives for ever, and all on the way carry for ever, needs no end.
    if (hot.empty() && (loop.cut.after_s <= longest_short.in(seconds) || (limited && all_carry))) return;
    if (!loop.no_curve.empty()) {
      for (const BranchId id : loop.no_curve) unknown_curves_.insert(*circuit_.branches[id].item);
      return;
    }
    LastingShort lasting = what_lasts(shorted, place, loop);
    if (hot.empty()) {
      for (const ConductorId id : lasting.shorted) take_worst(id, lasting);
      return;
    }
    keep_hottest(hot, shorted);
    lasting.overheats = true;
    for (const Hot& one : hot) {
      lasting.current = amperes(one.piece->ampere);
      lasting.opens = unless_endless(one.piece->lasts_s);
      lasting.bears = bears(*one.piece);
      take_worst(*circuit_.branches[one.piece->branch].conductor, lasting);
    }
  }

  LastingShort what_lasts(const std::vector<ShortedEnd>& shorted, const ShortPlace& place,
                          const FaultLoop& loop) const {
    LastingShort lasting;
    const bool any_feed = std::ranges::any_of(shorted, &ShortedEnd::is_feed);
    for (const ShortedEnd& end : shorted) {
      if (end.is_feed != any_feed) continue;  // its other half tells no more
      add_sorted(lasting.shorted, end.conductor);
      add_sorted(lasting.at, end_of(end, place));
    }
    for (const BranchId id : loop.cut.by) add_sorted(lasting.devices, *circuit_.branches[id].item);
    lasting.current = amperes(loop.ampere);
    lasting.device_current = amperes(loop.cut.ampere);
    lasting.opens = unless_endless(loop.cut.after_s);
    lasting.ways = ways_;
    return lasting;
  }

  // Of those that are as hot, what is shorted itself goes before the rest of the way, and the way out before the way
  // back. Neither names nor the order of the plan have a say in it.
  void keep_hottest(std::vector<Hot>& hot, const std::vector<ShortedEnd>& shorted) const {
    const auto keep = [&hot](auto wanted) {
      if (std::ranges::any_of(hot, wanted)) std::erase_if(hot, std::not_fn(wanted));
    };
    const double most = std::ranges::max(hot, {}, &Hot::times).times;
    keep([&](const Hot& one) { return is_alike(one.times, most); });
    keep([&](const Hot& one) {
      return std::ranges::count(shorted, *circuit_.branches[one.piece->branch].conductor, &ShortedEnd::conductor) > 0;
    });
    keep([](const Hot& one) { return one.piece->is_way_out; });
  }

  void take_worst(ConductorId subject, const LastingShort& found) {
    const auto [place, is_new] = worst_of_.try_emplace(subject, found);
    LastingShort& worst = place->second;
    if (is_new) return;
    const int order = compare(found, worst);
    if (order > 0) worst = found;
    if (order != 0) return;
    for (const ConductorId id : found.shorted) add_sorted(worst.shorted, id);
    for (const TerminalId id : found.at) add_sorted(worst.at, id);
    for (const ItemId id : found.devices) add_sorted(worst.devices, id);
  }

  // Which of two is worse: above nought the first, below the second.
  static int compare(const LastingShort& a, const LastingShort& b) {
    const auto figures = [](const LastingShort& of) {
      const double lasts_s = of.opens ? of.opens->in(seconds) : Cut{}.after_s;
      return std::array{of.overheats ? 1.0 : 0.0, of.bears ? lasts_s / of.bears->in(seconds) : lasts_s, lasts_s,
                        of.current.in(amperes), of.device_current.in(amperes)};
    };
    const auto of_a = figures(a), of_b = figures(b);
    for (std::size_t i = 0; i < of_a.size(); ++i)
      if (!is_alike(of_a[i], of_b[i])) return of_a[i] > of_b[i] ? 1 : -1;
    return 0;
  }

  // Subjects that suffer alike from the same short are told together.
  void join_subjects() {
    std::map<std::pair<std::vector<ConductorId>, std::vector<ItemId>>, std::vector<std::size_t>> of_short;
    for (auto& [subject, worst] : worst_of_) {
      std::vector<std::size_t>& told = of_short[{worst.shorted, worst.devices}];
      const auto same =
          std::ranges::find_if(told, [&](std::size_t i) { return compare(result_.lasting[i], worst) == 0; });
      if (same != told.end()) {
        result_.lasting[*same].subjects.push_back(subject);
        continue;
      }
      told.push_back(result_.lasting.size());
      result_.lasting.push_back(std::move(worst));
      result_.lasting.back().subjects = {subject};
    }
  }

  template <class Id>
  static void add_sorted(std::vector<Id>& list, Id id) {
    const auto at = std::lower_bound(list.begin(), list.end(), id);
    if (at == list.end() || *at != id) list.insert(at, id);
  }

  TerminalId end_of(const ShortedEnd& end, const ShortPlace& place) const {
    const Conductor& conductor = plan_.conductors[end.conductor];
    return circuit_.node_of[conductor.to] == (end.is_feed ? place.feed : place.back) ? conductor.to : conductor.from;
  }

  const Plan& plan_;
  const Circuit& circuit_;
  const Stock& stock_;
  const IndexedList<ConductorOf, ConductorFigures>& figures_;
  std::size_t ways_ = 0;
  std::map<ConductorId, LastingShort> worst_of_;  // by subject
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
