#include "loomleaf/study/sides.h"

#include <algorithm>
#include <deque>
#include <map>

#include "loomleaf/circuit/joined_sets.h"
#include "opposed.h"
#include "series.h"

namespace loomleaf {
namespace {

// A longer chain would need cells of less than a volt to stay at extra-low voltage; of such a one, not each piece is
// listed.
constexpr std::size_t kLongestChainInPieces = 60;

class SidesFinder {
 public:
  SidesFinder(const Plan& plan, const Circuit& circuit, const Ways& ways)
      : plan_(plan), circuit_(circuit), ways_(ways) {}

  Sides find() {
    find_parts();
    find_steps();
    const Series series = find_series(steps_, part_count_);
    list_supplies(series);
    find_shorts(series);
    find_clashes(series);
    place_supplies();
    find_charging_converters();
    find_islands();
    return std::move(sides_);
  }

 private:
  std::size_t part(NodeId node) const { return sides_.part_of[node].value; }

  void find_parts() {
    JoinedSets together(circuit_.nodes.size());
    for (const BranchId id : circuit_.branches.ids()) {
      const Branch& branch = circuit_.branches[id];
      if (conducts(circuit_, id, ways_)) together.join(branch.a.value, branch.b.value);
    }
    const std::vector<std::size_t> number = together.numbered(part_count_);
    sides_.part_of = IndexedList<NodeOf, PartId>(number.size());
    for (const NodeId node : circuit_.nodes.ids()) sides_.part_of[node] = PartId(number[node.value]);
  }

  // The sources come first, in the circuit's order, then the converters.
  void find_steps() {
    for (const TwoPole& source : circuit_.sources)
      steps_.push_back({part(source.minus), part(source.plus), source_of(source.item).nominal.in(volts), true});
    for (const ConverterPorts& converter : circuit_.converters)
      steps_.push_back({part(converter.out_minus), part(converter.out_plus),
                        converter_of(converter.item).out_voltage.in(volts), false});
  }

  const Source& source_of(ItemId item) const { return std::get<Source>(plan_.items[item].data); }
  const Converter& converter_of(ItemId item) const { return std::get<Converter>(plan_.items[item].data); }
  bool is_source(std::size_t step) const { return step < circuit_.sources.size(); }
  const ConverterPorts& ports(std::size_t step) const { return circuit_.converters[step - circuit_.sources.size()]; }
  NodeId plus(std::size_t step) const { return is_source(step) ? circuit_.sources[step].plus : ports(step).out_plus; }
  NodeId minus(std::size_t step) const {
    return is_source(step) ? circuit_.sources[step].minus : ports(step).out_minus;
  }

  void narrow(std::optional<Current>& limit, std::optional<Current> by) const {
    if (by) limit = limit ? std::min(*limit, *by) : *by;
  }

  ItemId item(std::size_t step) const { return is_source(step) ? circuit_.sources[step].item : ports(step).item; }

  SupplyId supply_along(const Path& path, const Path& turned = {}, std::optional<SupplyId> piece_of = std::nullopt) {
    const auto [place, is_new] = supply_of_.try_emplace(path);
    if (!is_new) return place->second;
    const auto is_turned = [&turned](std::size_t step) { return std::ranges::count(turned, step) > 0; };
    Supply supply;
    supply.minus = is_turned(path.front()) ? plus(path.front()) : minus(path.front());
    supply.plus = is_turned(path.back()) ? minus(path.back()) : plus(path.back());
    supply.piece_of = piece_of;
    for (const std::size_t step : path) {
      const double way = is_turned(step) ? -1.0 : 1.0;
      if (is_source(step)) {
        const Source& source = source_of(circuit_.sources[step].item);
        supply.sources.push_back(circuit_.sources[step].item);
        supply.low += source.low_or_nominal() * way;
        supply.nominal += source.nominal * way;
        supply.high += source.high_or_nominal() * way;
        if (!source.is_limited()) continue;
        supply.limited = true;
        narrow(supply.limit, source.limit);
      } else {
        const Converter& converter = converter_of(ports(step).item);
        supply.converter = ports(step).item;
        supply.low += converter.out_voltage * way;
        supply.nominal += converter.out_voltage * way;
        supply.high += converter.out_voltage * way;
        narrow(supply.limit, converter.rating);
      }
    }
    // Where they drive backwards, there is nothing to be had in this direction.
    for (Voltage* sum : {&supply.low, &supply.nominal, &supply.high}) *sum = std::max(*sum, Voltage{});
    return place->second = sides_.supplies.add(std::move(supply));
  }

  void list_supplies(const Series& series) {
    sides_.mid_chain = IndexedList<PartOf, bool>(part_count_, false);
    std::vector<Path> whole;
    for (const std::vector<Path>* paths : {&series.chains, &series.circles})
      whole.insert(whole.end(), paths->begin(), paths->end());
    // In the plan's order of their first member in it.
    std::sort(whole.begin(), whole.end(), [](const Path& a, const Path& b) {
      return *std::min_element(a.begin(), a.end()) < *std::min_element(b.begin(), b.end());
    });
    for (const Path& path : whole) supply_along(path);
    std::vector<bool> circular(steps_.size(), false);
    for (const Path& circle : series.circles)
      for (const std::size_t step : circle) circular[step] = true;
    for (std::size_t step = circuit_.sources.size(); step < steps_.size(); ++step)
      if (!circular[step]) supply_along({step});
    for (const Path& chain : series.chains) {
      const SupplyId of = supply_of_.at(chain);
      for (std::size_t i = 0; i + 1 < chain.size(); ++i) sides_.mid_chain[PartId(steps_[chain[i]].to)] = true;
      list_pieces(chain, of, chain.size() <= kLongestChainInPieces ? chain.size() - 1 : 1);
    }
    for (const Path& circle : series.circles)
      if (circle.size() > 1) list_pieces(circle, supply_of_.at(circle), 1);
  }

  void list_pieces(const Path& chain, SupplyId of, std::size_t longest) {
    for (std::size_t length = std::min(longest, chain.size() - 1); length > 0; --length)
      for (auto first = chain.begin(); chain.end() - first >= static_cast<std::ptrdiff_t>(length); ++first)
        supply_along(Path(first, first + static_cast<std::ptrdiff_t>(length)), {}, of);
  }

  void find_shorts(const Series& series) {
    for (const Path& circle : series.circles) {
      DeadShort found{supply_of_.at(circle), {}};
      for (std::size_t i = 0; i < circle.size(); ++i) {
        const std::vector<BranchId>& way = shortest_way(plus(circle[i]), minus(circle[(i + 1) % circle.size()]));
        found.way.insert(found.way.end(), way.begin(), way.end());
      }
      sides_.shorts.push_back(std::move(found));
    }
    std::sort(sides_.shorts.begin(), sides_.shorts.end(),
              [](const DeadShort& a, const DeadShort& b) { return a.supply < b.supply; });
  }

  void find_clashes(const Series& series) {
    std::vector<Disagreement> all = find_disagreements(steps_, series, part_count_);
    const std::vector<Disagreement> opposed = find_opposed(steps_, series, part_count_, all);
    all.insert(all.end(), opposed.begin(), opposed.end());
    if (all.empty()) return;
    const LikeEnds likes = like_ends();
    for (const Disagreement& one : all) {
      const Disagreement clash = with_turned(one, steps_, likes);
      VoltageClash& told = sides_.clashes.emplace_back(supply_along(clash.lower, clash.turned),
                                                       supply_along(clash.higher, clash.turned));
      for (const std::size_t step : clash.turned) told.turned.push_back(item(step));
      std::sort(told.turned.begin(), told.turned.end());
    }
  }

  LikeEnds like_ends() const {
    struct Meeting {
      int plus = 0, minus = 0, others = 0;
    };
    std::vector<Meeting> meeting(part_count_);
    for (const Step& step : steps_) {
      ++meeting[step.to].plus;
      ++meeting[step.from].minus;
    }
    for (const std::vector<TwoPole>* list : {&circuit_.loads, &circuit_.coils})
      for (const TwoPole& user : *list)
        for (const NodeId node : {user.plus, user.minus}) ++meeting[part(node)].others;
    for (const ConverterPorts& converter : circuit_.converters)
      for (const NodeId node : {converter.in_plus, converter.in_minus}) ++meeting[part(node)].others;
    LikeEnds likes;
    for (const Step& step : steps_) {
      const Meeting &at_plus = meeting[step.to], &at_minus = meeting[step.from];
      likes.push_back((at_plus.plus == 2 && at_plus.minus == 0 && at_plus.others == 0) +
                      (at_minus.minus == 2 && at_minus.plus == 0 && at_minus.others == 0));
    }
    return likes;
  }

  // By the number of branches; many supplies on one bus share the answer.
  const std::vector<BranchId>& shortest_way(NodeId from, NodeId to) {
    const auto [place, is_new] = ways_found_.try_emplace({from, to});
    if (!is_new || from == to) return place->second;
    std::map<NodeId, BranchId> reached_by;
    std::deque<NodeId> front{from};
    while (!front.empty() && !reached_by.count(to)) {
      const NodeId at = front.front();
      front.pop_front();
      for (const BranchId id : circuit_.at[at]) {
        const NodeId next = other_end(id, at);
        if (next != from && conducts(circuit_, id, ways_) && reached_by.emplace(next, id).second) front.push_back(next);
      }
    }
    for (NodeId at = to; at != from;) {
      const BranchId id = reached_by.at(at);
      place->second.push_back(id);
      at = other_end(id, at);
    }
    std::reverse(place->second.begin(), place->second.end());
    return place->second;
  }

  NodeId other_end(BranchId id, NodeId one) const {
    const Branch& branch = circuit_.branches[id];
    return branch.a == one ? branch.b : branch.a;
  }

  void place_supplies() {
    sides_.plus_in = IndexedList<PartOf, std::vector<SupplyId>>(part_count_);
    sides_.minus_in = sides_.plus_in;
    for (const SupplyId id : sides_.supplies.ids()) {
      sides_.plus_in[sides_.part_of[sides_.supplies[id].plus]].push_back(id);
      sides_.minus_in[sides_.part_of[sides_.supplies[id].minus]].push_back(id);
    }
    sides_.highest_in = IndexedList<PartOf, std::optional<SupplyId>>(part_count_);
    for (const PartId part : sides_.highest_in.ids())
      for (const std::vector<SupplyId>* list : {&sides_.plus_in[part], &sides_.minus_in[part]})
        for (const SupplyId id : *list) {
          std::optional<SupplyId>& highest = sides_.highest_in[part];
          if (!highest || sides_.supplies[id].high > sides_.supplies[*highest].high) highest = id;
        }
  }

  void find_charging_converters() {
    for (Supply& supply : sides_.supplies) {
      if (!supply.converter) continue;
      for (const SupplyId other : sides_.plus_in[sides_.part_of[supply.plus]]) {
        const Supply& battery = sides_.supplies[other];
        if (battery.converter || battery.limited || part(battery.minus) != part(supply.minus)) continue;
        supply.limited = true;
        break;
      }
    }
  }

  void find_islands() {
    JoinedSets together(part_count_);
    for (const std::vector<TwoPole>* list : {&circuit_.sources, &circuit_.loads, &circuit_.coils})
      for (const TwoPole& item : *list) together.join(part(item.plus), part(item.minus));
    for (const ConverterPorts& converter : circuit_.converters)
      for (const NodeId node : {converter.in_minus, converter.out_plus, converter.out_minus})
        together.join(part(converter.in_plus), part(node));
    std::size_t count = 0;
    const std::vector<std::size_t> number = together.numbered(count);
    sides_.island_of = IndexedList<NodeOf, int>(circuit_.nodes.size());
    for (const NodeId node : circuit_.nodes.ids()) sides_.island_of[node] = static_cast<int>(number[part(node)]);
    sides_.island_has_no_working_point.assign(count, false);
    const auto spoil = [this](SupplyId supply) {
      const int island = sides_.island_of[sides_.supplies[supply].plus];
      sides_.island_has_no_working_point[static_cast<std::size_t>(island)] = true;
    };
    for (const DeadShort& found : sides_.shorts) spoil(found.supply);
    for (const VoltageClash& found : sides_.clashes) spoil(found.a);
  }

  const Plan& plan_;
  const Circuit& circuit_;
  const Ways& ways_;
  Sides sides_;
  std::size_t part_count_ = 0;
  std::vector<Step> steps_;
  std::map<Path, SupplyId> supply_of_;
  std::map<std::pair<NodeId, NodeId>, std::vector<BranchId>> ways_found_;
};

}  // namespace

std::vector<SupplyId> Sides::across(NodeId plus, NodeId minus) const {
  std::vector<SupplyId> found;
  const PartId minus_part = part_of[minus];
  for (const SupplyId id : plus_in[part_of[plus]])
    if (part_of[supplies[id].minus] == minus_part) found.push_back(id);
  return found;
}

Sides find_sides(const Plan& plan, const Circuit& circuit, const Ways& ways) {
  return SidesFinder(plan, circuit, ways).find();
}

}  // namespace loomleaf
