#include "protection/support/brute_force.h"

#include <algorithm>
#include <bitset>
#include <cmath>
#include <optional>

namespace loomleaf::test {

namespace {

constexpr std::size_t kUncut = 64, kMostNodes = 256;

long long microamperes(std::optional<Current> i) { return i ? std::llround(i->in(amperes)*1e6) : kNoLimit_uA; }

}  // namespace

BruteForce::BruteForce(const Plan& plan, const Circuit& circuit, const Ways& ways) : plan_(plan), circuit_(circuit) {
  for (const BranchId id : circuit.branches.ids()) {
    const Branch& branch = circuit.branches[id];
    if (branch.changer && ways.way_of[*branch.changer] != branch.way &&
        ways.way_of[*branch.changer] != circuit.changers[*branch.changer].ways)
      continue;
    Edge edge{branch.a.value, branch.b.value, kNoLimit_uA, "", id.value, false};
    if (branch.kind == BranchKind::device) {
      edge.name = plan.items[*branch.item].id;
      edge.most_uA = microamperes(std::get<Device>(plan.items[*branch.item].data).rating);
    }
    conducting_.push_back(edge);
  }
  for (const TwoPole& pole : circuit.sources) {
    const Source& source = std::get<Source>(plan.items[pole.item].data);
    Emf emf{plan.items[pole.item].id, pole.plus.value, pole.minus.value, kNoLimit_uA, true};
    if (source.kind != Source::Kind::battery) emf.most_uA = microamperes(source.limit);
    supplies_.push_back(emf);
  }
  for (const ConverterPorts& ends : circuit.converters) {
    Emf emf{plan.items[ends.item].id, ends.out_plus.value, ends.out_minus.value, kNoLimit_uA, false};
    emf.most_uA = microamperes(std::get<Converter>(plan.items[ends.item].data).rating);
    supplies_.push_back(emf);
  }
  for (const TwoPole& load : circuit.loads) add_shorted(plan.items[load.item], load.plus, load.minus);
  for (const TwoPole& coil : circuit.coils) add_shorted(plan.items[coil.item], coil.plus, coil.minus);
  for (const ConverterPorts& ends : circuit.converters) add_shorted(plan.items[ends.item], ends.in_plus, ends.in_minus);
  find_banks();
}

// "Batteries whose + meet through no device, or that stand in series, are one bank."
void BruteForce::find_banks() {
  const auto belong = [this](const Emf& one, const Emf& two) {
    return reached_from({one.plus}, {}, true).count(two.plus) > 0 || reached_from({one.plus}, {}).count(two.minus) > 0;
  };
  for (const Emf& battery : supplies_) {
    if (!battery.is_battery()) continue;
    Names bank{battery.name};
    for (const Emf& other : supplies_)
      if (other.is_battery() && (belong(battery, other) || belong(other, battery))) bank.insert(other.name);
    std::vector<Names> apart;
    for (const Names& known : banks_) {
      const bool meets =
          std::any_of(known.begin(), known.end(), [&bank](const std::string& name) { return bank.count(name) > 0; });
      if (meets)
        bank.insert(known.begin(), known.end());
      else
        apart.push_back(known);
    }
    apart.push_back(bank);
    banks_ = apart;
  }
}

// "from its feed side to its return side only (not a starter, nor one whose own + is unfused, nor a reversed polarised
// one)"
void BruteForce::add_shorted(const Item& item, NodeId plus, NodeId minus) {
  const Load* load = item.as<Load>();
  if (load && load->kind == Load::Kind::starter) return;
  const bool either_way =
      item.is<Relay>() || (load && (load->kind == Load::Kind::motor || load->kind == Load::Kind::resistive));
  if (!load && item.is<Converter>()) {
    const Nodes feed = feed_side(item.id), back = return_side(item.id);
    const auto alone = [](const Nodes& in, const Nodes& not_in, NodeId node) {
      return in.count(node.value) && !not_in.count(node.value);
    };
    for (const ConverterPorts& ends : circuit_.converters) {
      if (plan_.items[ends.item].id != item.id) continue;
      if (alone(back, feed, ends.in_plus) && alone(feed, back, ends.in_minus)) return;
      if (alone(back, feed, ends.out_plus) && alone(feed, back, ends.out_minus)) return;
    }
  }
  Nodes unfused;
  for (const Emf& supply : supplies_)
    if (supply.most_uA == kNoLimit_uA) {
      const Nodes reached = reached_from({supply.plus}, {}, true);
      unfused.insert(reached.begin(), reached.end());
    }
  const Nodes feed = feed_side(), back = return_side();
  const auto add = [&](std::size_t from, std::size_t to) {
    if (feed.count(from) && back.count(to) && !unfused.count(from))
      shorted_.push_back({from, to, kNoLimit_uA, item.id, 0, true});
  };
  add(plus.value, minus.value);
  if (either_way) add(minus.value, plus.value);
}

BruteForce::Nodes BruteForce::reached_from(const Nodes& from, const Branches& without, bool free_only) const {
  Nodes reached = from;
  for (bool more = true; more;) {
    more = false;
    for (const Edge& edge : conducting_) {
      if (without.count(edge.branch) || (free_only && edge.most_uA != kNoLimit_uA)) continue;
      if (reached.count(edge.a) && reached.insert(edge.b).second) more = true;
      if (reached.count(edge.b) && reached.insert(edge.a).second) more = true;
    }
  }
  return reached;
}

BruteForce::Nodes BruteForce::feed_side(const std::string& but) const {
  Nodes plus;
  for (const Emf& supply : supplies_)
    if (supply.name != but) plus.insert(supply.plus);
  return reached_from(plus, {});
}

// Without what links the sources of a series chain: that counts as feed.
BruteForce::Nodes BruteForce::return_side(const std::string& but) const {
  Nodes minus;
  for (const Emf& supply : supplies_)
    if (supply.name != but) minus.insert(supply.minus);
  Nodes side = reached_from(minus, {});
  for (const Emf& lower : supplies_)
    for (const Emf& upper : supplies_) {
      if (!lower.is_source || !upper.is_source || lower.name == upper.name) continue;
      const Nodes link = reached_from({lower.plus}, {});
      if (!link.count(upper.minus)) continue;
      for (const std::size_t node : link) side.erase(node);
    }
  return side;
}

bool BruteForce::has_dead_short() const {
  // From a supply's + on through conductors, or through a further supply from its - to its +, back to its own -.
  for (const Emf& supply : supplies_) {
    Nodes reached = reached_from({supply.plus}, {});
    for (std::size_t round = 0; round < supplies_.size(); ++round)
      for (const Emf& next : supplies_)
        if (reached.count(next.minus) && next.name != supply.name) {
          Nodes on = reached_from({next.plus}, {});
          reached.insert(on.begin(), on.end());
        }
    if (reached.count(supply.minus)) return true;
  }
  return false;
}

BruteFlow BruteForce::flow(std::size_t target, const std::vector<Emf>& from, const Branches& without,
                           const std::vector<Edge>& loads) const {
  std::vector<Edge> edges = loads;
  for (const Edge& edge : conducting_)
    if (!without.count(edge.branch)) edges.push_back(edge);

  // What can be cut: devices, and supplies with a limit.
  std::vector<std::pair<std::string, long long>> cuttable;
  std::vector<std::size_t> bit_of_edge(edges.size(), kUncut), bit_of_supply(from.size(), kUncut);
  for (std::size_t i = 0; i < edges.size(); ++i)
    if (edges[i].most_uA != kNoLimit_uA) {
      bit_of_edge[i] = cuttable.size();
      cuttable.emplace_back(edges[i].name, edges[i].most_uA);
    }
  for (std::size_t i = 0; i < from.size(); ++i)
    if (from[i].most_uA != kNoLimit_uA) {
      bit_of_supply[i] = cuttable.size();
      cuttable.emplace_back(from[i].name, from[i].most_uA);
    }

  BruteFlow best;  // unbounded until a cut is found
  std::size_t best_side = 0;
  for (std::size_t choice = 0; choice < (std::size_t{1} << cuttable.size()); ++choice) {
    const auto is_cut = [choice](std::size_t bit) { return bit != kUncut && (choice >> bit & 1U) != 0; };
    long long cost = 0;
    for (std::size_t bit = 0; bit < cuttable.size(); ++bit)
      if (is_cut(bit)) cost += cuttable[bit].second;
    if (cost > best.most_uA) continue;
    std::bitset<kMostNodes> side;  // from where the target is reached
    side.set(target);
    for (bool more = true; more;) {
      const std::bitset<kMostNodes> before = side;
      for (std::size_t i = 0; i < edges.size(); ++i) {
        if (is_cut(bit_of_edge[i])) continue;
        if (side[edges[i].b]) side.set(edges[i].a);
        if (!edges[i].one_way && side[edges[i].a]) side.set(edges[i].b);
      }
      more = side != before;
    }
    bool parts = true;
    for (std::size_t i = 0; i < from.size(); ++i)
      if (side[from[i].plus] && !is_cut(bit_of_supply[i])) parts = false;
    if (!parts) continue;
    // The nearest of several least cuts leaves the fewest nodes on the target's side.
    if (cost < best.most_uA || side.count() < best_side) {
      best.most_uA = cost;
      best.held_by.clear();
      for (std::size_t bit = 0; bit < cuttable.size(); ++bit)
        if (is_cut(bit)) best.held_by.insert(cuttable[bit].first);
      best_side = side.count();
    }
  }
  return best;
}

BruteFlow BruteForce::feed_into(NodeId node, const std::set<std::uint32_t>& without, bool batteries_alone) const {
  std::vector<Emf> from = supplies_;
  if (batteries_alone) std::erase_if(from, [](const Emf& supply) { return !supply.is_battery(); });
  return flow(node.value, from, without);
}

std::set<std::size_t> BruteForce::plus_poles(bool batteries_alone) const {
  Nodes poles;
  for (const Emf& supply : supplies_)
    if (!batteries_alone || supply.is_battery()) poles.insert(supply.plus);
  return poles;
}

std::set<std::size_t> BruteForce::minus_poles(bool batteries_alone) const {
  const Nodes side = return_side();
  Nodes poles;
  for (const Emf& supply : supplies_)
    if ((!batteries_alone || supply.is_battery()) && side.count(supply.minus)) poles.insert(supply.minus);
  return poles;
}

std::vector<BranchId> BruteForce::conducting() const {
  std::vector<BranchId> branches;
  for (const Edge& edge : conducting_) branches.push_back(BranchId(edge.branch));
  return branches;
}

std::vector<std::pair<std::size_t, std::size_t>> BruteForce::shorted_loads() const {
  std::vector<std::pair<std::size_t, std::size_t>> loads;
  for (const Edge& load : shorted_) loads.emplace_back(load.a, load.b);
  return loads;
}

BruteLetThrough BruteForce::of(ConductorId conductor) const {
  const BranchId id = circuit_.branch_of[conductor];
  const Branch& branch = circuit_.branches[id];
  const Branches without{id.value};
  BruteLetThrough found;
  found.is_feed = feed_side().count(branch.a.value) > 0;
  found.is_return = return_side().count(branch.a.value) > 0;
  bool is_first = true;
  for (const auto& [end, other] : {std::pair{branch.a, branch.b}, std::pair{branch.b, branch.a}}) {
    const BruteFlow feed = flow(end.value, supplies_, without);
    const auto [back, loads_alone, by_ways] = back_into(end.value, other.value, branch);
    if (is_first || feed > found.feed) found.feed = feed;
    if (is_first || back > found.back) found.back = back;
    if (back > loads_alone && loads_alone.is_bounded()) found.back_through_battery = true;
    found.back_by_ways = found.back_by_ways || by_ways;
    is_first = false;
  }
  return found;
}

}  // namespace loomleaf::test
