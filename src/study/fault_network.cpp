#include "fault_network.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

#include "loomleaf/circuit/joined_sets.h"
#include "loomleaf/study/polarity.h"

namespace loomleaf {
namespace {

constexpr double kMostCountedA = 1e6;  // no device or source comes near; keeps sums within a whole number

// A device without a rating protects nothing.
std::optional<Current> limit_of(const Plan& plan, const Branch& branch) {
  if (branch.kind != BranchKind::device || !branch.item) return std::nullopt;
  const Device* device = plan.items[*branch.item].as<Device>();
  return device ? device->rating : std::nullopt;
}

std::vector<bool> conducting(const Circuit& circuit, const Ways& ways) {
  std::vector<bool> passes(circuit.branches.size());
  for (const BranchId id : circuit.branches.ids()) passes[id.value] = conducts(circuit, id, ways);
  return passes;
}

std::vector<bool> without_limit(const Plan& plan, const Circuit& circuit, const Ways& ways) {
  std::vector<bool> passes = conducting(circuit, ways);
  for (const BranchId id : circuit.branches.ids())
    if (limit_of(plan, circuit.branches[id])) passes[id.value] = false;
  return passes;
}

}  // namespace

Microamperes to_microamperes(std::optional<Current> limit) {
  if (!limit) return kUnlimited;
  const double a = limit->in(amperes);
  return a > 0.0 ? static_cast<Microamperes>(std::llround(std::min(a, kMostCountedA) * 1e6)) : 0;
}

Current to_current(Microamperes flow) { return amperes(static_cast<double>(flow) / 1e6); }

FaultNetwork::FaultNetwork(const Plan& plan, const Circuit& circuit, const Ways& ways, const Sides& sides)
    : free_(without_limit(plan, circuit, ways)),
      lumps_(circuit, free_),
      parts_(circuit, conducting(circuit, ways), free_) {
  list_supplies(plan, circuit);
  add_devices(plan, circuit);
  add_loads(plan, circuit, sides);
  order_ports();
  find_useless(sides);
}

void FaultNetwork::list_supplies(const Plan& plan, const Circuit& circuit) {
  for (const TwoPole& pole : circuit.sources) {
    const Source& source = std::get<Source>(plan.items[pole.item].data);
    const bool is_battery = !source.is_limited();
    const std::optional<Current> limit = is_battery ? std::nullopt : std::optional(source.limit);
    supplies_.push_back({pole.item, pole.plus, pole.minus, to_microamperes(limit), true, is_battery, {}});
  }
  for (const ConverterPorts& ends : circuit.converters)
    supplies_.push_back({ends.item,
                         ends.out_plus,
                         ends.out_minus,
                         to_microamperes(std::get<Converter>(plan.items[ends.item].data).rating),
                         false,
                         false,
                         {}});
  sources_on_.resize(parts_.group_count());
  for (std::size_t s = 0; s < supplies_.size(); ++s)
    if (supplies_[s].is_source) sources_on_[parts_.group_of(supplies_[s].minus)].push_back(s);
  form_banks();
  unfused_.assign(lumps_.group_count(), false);
  for (std::size_t s = 0; s < supplies_.size(); ++s) {
    const Pole& pole = supplies_[s];
    if (pole.most == kUnlimited) unfused_[lumps_.group_of(pole.plus)] = true;
    Port port;
    port.kind = Port::Kind::supply;
    port.node = pole.plus;
    port.item = pole.item;
    port.supply = s;
    port.bank = pole.bank;
    port.most = pole.most;
    port.mate = ports_.size();
    ports_.push_back(port);
    if (pole.bank) add_load(pole.item, pole.plus, pole.minus, pole.bank);
  }
}

void FaultNetwork::form_banks() {
  JoinedSets together(supplies_.size());
  std::vector<std::optional<std::size_t>> first_in(lumps_.group_count());
  for (std::size_t s = 0; s < supplies_.size(); ++s) {
    if (!supplies_[s].is_battery) continue;
    std::optional<std::size_t>& first = first_in[lumps_.group_of(supplies_[s].plus)];
    if (first)
      together.join(*first, s);  // what stands in series on that one was joined with it
    else
      for (const std::size_t next : sources_on_[parts_.group_of(supplies_[s].plus)])
        if (supplies_[next].is_battery) together.join(s, next);
    if (!first) first = s;
  }
  std::vector<std::optional<std::size_t>> number(supplies_.size());
  for (std::size_t s = 0; s < supplies_.size(); ++s) {
    if (!supplies_[s].is_battery) continue;
    std::optional<std::size_t>& bank = number[together.root(s)];
    if (!bank) bank = bank_count_++;
    supplies_[s].bank = bank;
  }
}

void FaultNetwork::add_devices(const Plan& plan, const Circuit& circuit) {
  for (const Branch& branch : circuit.branches) {
    const std::optional<Current> rating = limit_of(plan, branch);
    if (!rating || branch.a == branch.b) continue;
    const std::size_t at = ports_.size();
    for (const bool first : {true, false}) {
      Port port;
      port.kind = Port::Kind::device;
      port.node = first ? branch.a : branch.b;
      port.item = *branch.item;
      port.mate = first ? at + 1 : at;
      port.most = to_microamperes(*rating);
      ports_.push_back(port);
    }
  }
}

void FaultNetwork::add_loads(const Plan& plan, const Circuit& circuit, const Sides& sides) {
  const Polarity polarity(plan, circuit, sides);
  const auto add = [&](ItemId item, NodeId plus, NodeId minus) {
    if (polarity.is_reversed(item)) return;
    const auto add_way = [&](NodeId feed, NodeId back) {
      if (sides.is_feed(feed) && sides.is_return(back) && !unfused_[lumps_.group_of(feed)]) add_load(item, feed, back);
    };
    add_way(plus, minus);
    if (!is_polarised(plan.items[item])) add_way(minus, plus);
  };
  for (const TwoPole& load : circuit.loads)
    if (std::get<Load>(plan.items[load.item].data).kind != Load::Kind::starter) add(load.item, load.plus, load.minus);
  for (const TwoPole& coil : circuit.coils) add(coil.item, coil.plus, coil.minus);
  for (const ConverterPorts& converter : circuit.converters) add(converter.item, converter.in_plus, converter.in_minus);
}

void FaultNetwork::add_load(ItemId item, NodeId feed, NodeId back, std::optional<std::size_t> bank) {
  const std::size_t at = ports_.size();
  Port out, in;
  out.kind = Port::Kind::load_out;
  in.kind = Port::Kind::load_in;
  out.node = feed;
  in.node = back;
  out.item = in.item = item;
  out.bank = in.bank = bank;
  out.mate = at + 1;
  in.mate = at;
  in.most = kUnlimited;
  ports_.push_back(out);
  ports_.push_back(in);
}

void FaultNetwork::order_ports() {
  std::vector<std::size_t> order(ports_.size()), place(ports_.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [this](std::size_t a, std::size_t b) {
    return lumps_.position(ports_[a].node) < lumps_.position(ports_[b].node);
  });
  std::vector<Port> sorted;
  sorted.reserve(ports_.size());
  for (std::size_t i = 0; i < order.size(); ++i) {
    place[order[i]] = i;
    sorted.push_back(ports_[order[i]]);
  }
  for (Port& port : sorted) port.mate = place[port.mate];
  ports_ = std::move(sorted);

  const std::size_t node_count = lumps_.group_count() == 0 ? 0 : lumps_.group(lumps_.group_count() - 1).last;
  first_port_.assign(node_count + 1, 0);
  for (const Port& port : ports_) ++first_port_[lumps_.position(port.node) + 1];
  std::partial_sum(first_port_.begin(), first_port_.end(), first_port_.begin());
}

// Strips lumps that nothing is fed into and that hang on a single device: nothing comes back through that device. Where
// supplies and loads' returns lie in one part, the way of a current is not so plain, and nothing is stripped.
void FaultNetwork::find_useless(const Sides& sides) {
  const std::size_t count = lumps_.group_count();
  std::vector<bool> fed(count, false), has_supply(parts_.group_count(), false), has_return(parts_.group_count(), false);
  std::vector<std::vector<std::size_t>> devices(count);
  for (std::size_t p = 0; p < ports_.size(); ++p) {
    const Port& port = ports_[p];
    const std::size_t lump = lump_of_port(p), part = parts_.group_of(port.node);
    if (port.kind == Port::Kind::device && lump_of_port(port.mate) != lump) devices[lump].push_back(p);
    if (port.kind == Port::Kind::supply) fed[lump] = has_supply[part] = true;
    if (port.kind == Port::Kind::load_in) fed[lump] = true;
    if (port.kind == Port::Kind::load_in && sides.is_return(port.node)) has_return[part] = true;
  }
  std::vector<std::size_t> left(count), strip;
  for (std::size_t lump = 0; lump < count; ++lump) {
    const std::size_t part = parts_.group_of(lumps_.node_at(lumps_.group(lump).first));
    if (has_supply[part] && has_return[part]) fed[lump] = true;
    left[lump] = devices[lump].size();
    if (!fed[lump] && left[lump] == 1) strip.push_back(lump);
  }
  while (!strip.empty()) {
    const std::size_t lump = strip.back();
    strip.pop_back();
    for (const std::size_t p : devices[lump]) {
      Port& there = ports_[ports_[p].mate];
      if (there.useless || ports_[p].useless) continue;
      there.useless = true;
      const std::size_t next = lump_of_port(ports_[p].mate);
      if (--left[next] == 1 && !fed[next]) strip.push_back(next);
    }
  }
}

void FaultNetwork::add_series(std::vector<std::size_t>& counted) const {
  std::set<std::size_t> known(counted.begin(), counted.end()), seen;  // supplies; parts
  for (std::size_t i = 0; i < counted.size(); ++i) {
    if (!supplies_[counted[i]].is_source) continue;
    const std::size_t part = parts_.group_of(supplies_[counted[i]].plus);
    if (!seen.insert(part).second) continue;
    for (const std::size_t next : sources_on_[part])
      if (known.insert(next).second) counted.push_back(next);
  }
}

}  // namespace loomleaf
