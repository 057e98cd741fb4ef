#include "loomleaf/study/short_circuit.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <set>
#include <tuple>

#include "fault_stages.h"
#include "loomleaf/study/adiabatic.h"
#include "metalwork_shorts.h"
#include "prospective_short.h"
#include "worst_lasting.h"

namespace loomleaf {
namespace {

class ShortCircuitStudy {
 public:
  ShortCircuitStudy(const Plan& plan, const Circuit& circuit, const Stock& stock,
                    const IndexedList<ConductorOf, ConductorFigures>& figures, const Protection& protection)
      : plan_(plan),
        circuit_(circuit),
        stock_(stock),
        figures_(figures),
        protection_(protection),
        is_metal_(circuit.nodes.size(), false) {
    result_.devices = IndexedList<ItemOf, std::vector<ProspectiveShort>>(plan.items.size());
    result_.conductors = IndexedList<ConductorOf, std::optional<FarShort>>(plan.conductors.size());
    for (const Item& item : plan.items)
      if (item.is<Chassis>())
        for (const TerminalId terminal : item.terminals) is_metal_[circuit.node_of[terminal]] = true;
  }

  void take(const FaultSupplies& supplies, std::size_t ways) {
    ways_ = ways;
    unknown_batteries_.insert(supplies.unknown_batteries().begin(), supplies.unknown_batteries().end());
    const ShortPlaces places(plan_, circuit_, supplies, figures_);
    StageFinder finder(plan_, circuit_, stock_, supplies, figures_);
    take_devices(supplies, places);
    take_conductors(finder, places);
    take_metalwork(finder, supplies, places);
  }

  ShortCircuits result() {
    for (std::vector<ProspectiveShort>& in_ways : result_.devices) put_greatest_first(in_ways);
    result_.lasting = worst_.all();
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
      result_.devices[*branch.item].push_back(std::move(*found));
    }
  }

  // Of currents that differ by rounding alone the one of the first standing.
  static void put_greatest_first(std::vector<ProspectiveShort>& in_ways) {
    std::ranges::stable_sort(in_ways, std::greater<>(), &ProspectiveShort::current);
    for (auto first = in_ways.begin(); first != in_ways.end();) {
      const auto last = std::find_if(first, in_ways.end(), [first](const ProspectiveShort& one) {
        return !is_alike(one.current.in(amperes), first->current.in(amperes));
      });
      std::sort(first, last, [](const auto& one, const auto& other) { return one.ways < other.ways; });
      first = last;
    }
  }

  // Out and back, and what ends side by side, share their short.
  void take_conductors(StageFinder& finder, const ShortPlaces& places) {
    std::map<std::tuple<NodeId, NodeId, double>, std::vector<ShortedEnd>> shorts;
    for (const ConductorId id : plan_.conductors.ids())
      for (const ShortPlace& place : places.of(id))
        shorts[{place.feed, place.back, place.way_back_ohm}].push_back({id, place.at_feed_end});
    for (const auto& [at, shorted] : shorts) {
      const auto& [feed, back, way_back_ohm] = at;
      const ShortPlace place{feed, back, shorted.front().is_feed, way_back_ohm};
      auto loop = finder.find(place, shorted);
      if (!loop) continue;
      *loop = finder.in_stages(*loop, place, shorted);
      for (const ShortedEnd& end : shorted)
        take_worse(result_.conductors[end.conductor],
                   {amperes(loop->ampere), clearing_of(*loop), ways_, loop->in_stages});
      judge(shorted, place, *loop);
    }
  }

  void take_metalwork(StageFinder& finder, const FaultSupplies& supplies, const ShortPlaces& places) {
    for (const MetalworkShort& one : metalwork_shorts(plan_, circuit_, supplies, places, figures_)) {
      auto loop = finder.find(one.place, {});
      if (!loop) continue;
      *loop = finder.in_stages(*loop, one.place, {});
      std::vector<Hot> hot = hot_in(*loop).list;
      std::erase_if(hot, [&](const Hot& piece) {
        return piece.piece->is_way_out || !is_lead_of_metal(*circuit_.branches[piece.piece->branch].conductor, places);
      });
      if (hot.empty() || !lasts(*loop, {hot, false})) continue;
      if (is_without_curve(*loop)) continue;
      keep_hottest(hot);
      LastingShort lasting = lasting_of(*loop);
      lasting.overheats = true;
      lasting.metal = one.metal;
      add_place(lasting, {one.shorted, true}, one.place);
      for (const Hot& piece : hot) take_hot(lasting, piece);
    }
  }

  // Nothing can be said of it then; the devices are told.
  bool is_without_curve(const FaultLoop& loop) {
    for (const BranchId id : loop.no_curve) unknown_curves_.insert(*circuit_.branches[id].item);
    return !loop.no_curve.empty();
  }

  // It ends at metalwork, or no current of its own returns over it.
  bool is_lead_of_metal(ConductorId conductor, const ShortPlaces& places) const {
    const Branch& branch = circuit_.branches[circuit_.branch_of[conductor]];
    return is_metal_[branch.a] || is_metal_[branch.b] || places.of(conductor).empty();
  }

  static std::optional<Duration> unless_endless(double lasts_s) {
    return std::isfinite(lasts_s) ? std::optional(seconds(lasts_s)) : std::nullopt;
  }

  static std::optional<Duration> clearing_of(const FaultLoop& loop) {
    return loop.cut.guarded ? unless_endless(loop.cut.after_s) : std::nullopt;
  }

  static void take_worse(std::optional<FarShort>& worst, const FarShort& found) {
    const auto lasts_s = [](const FarShort& of) { return of.clears ? of.clears->in(seconds) : Cut{}.after_s; };
    const auto is_worse = [&lasts_s](const FarShort& one, const FarShort& other) {
      if (!is_alike(lasts_s(one), lasts_s(other))) return lasts_s(one) > lasts_s(other);
      return one.current < other.current && !is_alike(one.current.in(amperes), other.current.in(amperes));
    };
    if (!worst || is_worse(found, *worst)) worst = found;
  }

  // How long a piece bears its current; nothing where it carries that for ever.
  std::optional<Duration> bears(const LoopPiece& piece) const {
    const ConductorFigures& figures = figures_[*circuit_.branches[piece.branch].conductor];
    const Current current = amperes(piece.ampere);
    if (figures.ampacity && current <= *figures.ampacity) return std::nullopt;
    return bears_for(figures.area, figures.insulation, current);
  }

  // A short there, before its own device, is what the rulebook tolerates; whatever else it would run through is judged
  // at its own ends.
  bool is_tolerated(ConductorId conductor) const {
    return protection_.conductors[conductor].exposure == Exposure::tolerated;
  }

  struct Hot {
    const LoopPiece* piece = nullptr;
    Duration bears{};
    double times = 0.0;  // it lasts so many times as long
    bool is_shorted = false;
  };
  struct HotPieces {
    std::vector<Hot> list;
    bool all_carry = true;  // all on the way carry it for ever
  };
  HotPieces hot_in(const FaultLoop& loop) const {
    HotPieces hot;
    for (const LoopPiece& piece : loop.pieces) {
      const std::optional<ConductorId> conductor = circuit_.branches[piece.branch].conductor;
      const std::optional<Duration> limit = conductor ? bears(piece) : std::nullopt;
      if (!limit) continue;
      hot.all_carry = false;
      const double times = piece.lasts_s / limit->in(seconds);
      if (times > 1.0 && !is_tolerated(*conductor)) hot.list.push_back({&piece, *limit, times, false});
    }
    return hot;
  }

  // What a limited source gives for ever, and all on the way carry for ever, needs no end. Without a device on the way,
  // that is a finding of its own.
  static bool lasts(const FaultLoop& loop, const HotPieces& hot) {
    if (!loop.cut.guarded) return false;
    return !hot.list.empty() || (loop.cut.after_s > longest_short.in(seconds) && !(loop.limited && hot.all_carry));
  }

  void judge(const std::vector<ShortedEnd>& shorted, const ShortPlace& place, const FaultLoop& loop) {
    const std::vector<ShortedEnd> ends = told(shorted);
    if (std::ranges::all_of(ends, [this](const ShortedEnd& end) { return is_tolerated(end.conductor); })) return;
    HotPieces found = hot_in(loop);
    if (!lasts(loop, found)) return;
    std::vector<Hot>& hot = found.list;
    for (Hot& one : hot) one.is_shorted = end_at(shorted, *circuit_.branches[one.piece->branch].conductor) != nullptr;
    if (is_without_curve(loop)) return;
    LastingShort lasting = lasting_of(loop);
    if (hot.empty()) {
      lasting.current = amperes(loop.ampere);
      lasting.opens = unless_endless(loop.cut.after_s);
      for (const ShortedEnd& end : ends)
        if (!is_tolerated(end.conductor)) worst_.take(of_itself(lasting, end, place));
      return;
    }
    keep_hottest(hot);
    lasting.overheats = true;
    for (const ShortedEnd& end : ends) add_place(lasting, end, place);
    for (const Hot& one : hot) {
      const ConductorId subject = *circuit_.branches[one.piece->branch].conductor;
      take_hot(one.is_shorted ? of_itself(lasting, {subject, end_at(shorted, subject)->is_feed}, place) : lasting, one);
    }
  }

  LastingShort lasting_of(const FaultLoop& loop) const {
    LastingShort lasting;
    for (const BranchId id : loop.cut.by) add_sorted(lasting.devices, *circuit_.branches[id].item);
    lasting.ways = {ways_};
    lasting.device_current = amperes(loop.cut.ampere);
    lasting.in_stages = loop.in_stages;
    return lasting;
  }

  void take_hot(LastingShort lasting, const Hot& one) {
    lasting.subject = *circuit_.branches[one.piece->branch].conductor;
    lasting.current = amperes(one.piece->ampere);
    lasting.opens = unless_endless(one.piece->lasts_s);
    lasting.bears = one.bears;
    worst_.take(lasting);
  }

  // Of those that are as hot, what bears it least; then what is shorted itself before the rest of the way, and the way
  // out before the way back. Neither names nor the order of the plan have a say in it.
  static void keep_hottest(std::vector<Hot>& hot) {
    const auto keep = [&hot](auto wanted) {
      if (std::ranges::any_of(hot, wanted)) std::erase_if(hot, std::not_fn(wanted));
    };
    const double most = std::ranges::max(hot, {}, &Hot::times).times;
    keep([&](const Hot& one) { return is_alike(one.times, most); });
    const double least = std::ranges::min(hot, {}, &Hot::bears).bears.in(seconds);
    keep([&](const Hot& one) { return is_alike(one.bears.in(seconds), least); });
    keep([](const Hot& one) { return one.is_shorted; });
    keep([](const Hot& one) { return one.piece->is_way_out; });
  }

  // Of a short that is at conductors' ends on the way out and back, those on the way out.
  static std::vector<ShortedEnd> told(const std::vector<ShortedEnd>& shorted) {
    std::vector<ShortedEnd> told;
    const bool any_feed = std::ranges::any_of(shorted, &ShortedEnd::is_feed);
    std::ranges::copy_if(shorted, std::back_inserter(told),
                         [any_feed](const ShortedEnd& end) { return end.is_feed == any_feed; });
    return told;
  }

  static const ShortedEnd* end_at(const std::vector<ShortedEnd>& shorted, ConductorId conductor) {
    const auto at = std::ranges::lower_bound(shorted, conductor, {}, &ShortedEnd::conductor);
    return at != shorted.end() && at->conductor == conductor ? &*at : nullptr;
  }

  LastingShort of_itself(LastingShort lasting, const ShortedEnd& end, const ShortPlace& place) const {
    lasting.subject = end.conductor;
    lasting.shorted.clear();
    lasting.at.clear();
    add_place(lasting, end, place);
    return lasting;
  }

  void add_place(LastingShort& lasting, const ShortedEnd& end, const ShortPlace& place) const {
    add_sorted(lasting.shorted, end.conductor);
    add_sorted(lasting.at, end_of(end, place));
  }

  TerminalId end_of(const ShortedEnd& end, const ShortPlace& place) const {
    const Conductor& conductor = plan_.conductors[end.conductor];
    return circuit_.node_of[conductor.to] == (end.is_feed ? place.feed : place.back) ? conductor.to : conductor.from;
  }

  const Plan& plan_;
  const Circuit& circuit_;
  const Stock& stock_;
  const IndexedList<ConductorOf, ConductorFigures>& figures_;
  const Protection& protection_;
  IndexedList<NodeOf, bool> is_metal_;
  std::size_t ways_ = 0;
  WorstLasting worst_;
  std::set<ItemId> unknown_batteries_, unknown_curves_;
  ShortCircuits result_;
};

}  // namespace

ShortCircuits study_short_circuits(const Plan& plan, const Circuit& circuit, const Stock& stock,
                                   const IndexedList<ConductorOf, ConductorFigures>& conductors,
                                   const Protection& protection, const std::vector<Ways>& ways,
                                   const std::vector<Sides>& sides) {
  const BranchResistances resistances = branch_resistances(plan, circuit, stock, conductors);
  ShortCircuitStudy study(plan, circuit, stock, conductors, protection);
  for (std::size_t w = 0; w < ways.size(); ++w)
    study.take(FaultSupplies(plan, circuit, ways[w], sides[w], resistances), w);
  return study.result();
}

}  // namespace loomleaf
