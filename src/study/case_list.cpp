#include "case_list.h"

#include <algorithm>
#include <map>
#include <set>

namespace loomleaf {

namespace {

const Load& load_at(const Plan& plan, const Circuit& circuit, std::size_t position) {
  return *plan.items[circuit.loads[position].item].as<Load>();
}

std::string suffix_of(const std::string& ways_text) { return ways_text.empty() ? "" : ' ' + ways_text; }

// Where one converter charges the battery that another draws from, what the first gives would hide what the second
// takes: they run in two shifts, those that meet so in unlike ones, all others in both. By shift and converter: whether
// it rests. None where no two meet so.
std::vector<std::vector<bool>> charging_shifts(const Circuit& circuit, const WiredNetwork& network) {
  const std::size_t count = circuit.converters.size();
  std::map<SupplyId, std::vector<std::size_t>> charged_by, drawn_by;
  for (std::size_t i = 0; i < count; ++i) {
    if (!network.converter_charges(i)) continue;
    const ConverterPorts& ports = circuit.converters[i];
    const auto charged = network.supplies().across(ports.out_plus, ports.out_minus);
    if (charged) charged_by[charged->supply].push_back(i);
    if (const auto& from = network.supply_of_converter(i)) drawn_by[from->supply].push_back(i);
  }
  std::vector<std::vector<std::size_t>> meets(count);
  for (const auto& [bank, givers] : charged_by)
    for (const std::size_t taker : drawn_by[bank])
      for (const std::size_t giver : givers) {
        if (giver == taker) continue;
        meets[giver].push_back(taker);
        meets[taker].push_back(giver);
      }
  std::vector<std::vector<bool>> rests;
  std::vector<bool> seen(count, false);
  for (std::size_t start = 0; start < count; ++start) {
    if (meets[start].empty() || seen[start]) continue;
    if (rests.empty()) rests.assign(2, std::vector<bool>(count, false));
    std::vector<std::pair<std::size_t, std::size_t>> front{{start, 0}};  // with the shift
    seen[start] = true;
    while (!front.empty()) {
      const auto [at, shift] = front.back();
      front.pop_back();
      rests[1 - shift][at] = true;
      for (const std::size_t next : meets[at])
        if (!seen[next]) {
          seen[next] = true;
          front.emplace_back(next, 1 - shift);
        }
    }
  }
  return rests;
}

// "CV1, CV2 and more": those that run, at most three by name.
std::string names_of_running(const Plan& plan, const Circuit& circuit, const WiredNetwork& network,
                             const std::vector<bool>& rests) {
  constexpr std::size_t most_named = 3;
  std::string names;
  std::size_t running = 0;
  for (std::size_t i = 0; i < rests.size(); ++i) {
    if (rests[i] || !network.converter_charges(i)) continue;
    if (++running <= most_named) names += (running > 1 ? ", " : "") + plan.items[circuit.converters[i].item].id;
  }
  return running > most_named ? names + " and more" : names;
}

}  // namespace

std::vector<CaseSetup> list_cases(const Plan& plan, const Circuit& circuit, const WiredNetwork& network,
                                  const std::vector<FinalCircuit>& circuits, std::size_t ways,
                                  const std::string& ways_text) {
  const std::string suffix = suffix_of(ways_text);
  std::map<ItemId, std::size_t> position_of;
  for (std::size_t i = 0; i < circuit.loads.size(); ++i) position_of[circuit.loads[i].item] = i;

  std::vector<CaseSetup> cases;
  const auto add = [&](Case::Kind kind, std::optional<ItemId> subject, const std::string& name) -> CaseSetup& {
    CaseSetup& setup = cases.emplace_back();
    setup.at = {kind, ways, subject, false, name + suffix};
    return setup;
  };
  add(Case::Kind::load, std::nullopt, "load");
  if (network.anything_charges()) add(Case::Kind::charge, std::nullopt, "charge");
  if (network.any_converter_charges()) add(Case::Kind::load_charge, std::nullopt, "load+charge");
  for (std::vector<bool>& rests : charging_shifts(circuit, network)) {
    const std::string running = names_of_running(plan, circuit, network, rests);
    add(Case::Kind::load_charge, std::nullopt, "load+charge by " + running).rests = std::move(rests);
  }
  std::set<ItemId> charging;
  for (std::size_t i = 0; i < circuit.converters.size(); ++i)
    if (network.converter_charges(i)) charging.insert(circuit.converters[i].item);
  for (const FinalCircuit& final_circuit : circuits) {
    std::vector<std::size_t> in_full;
    for (const ItemId item : final_circuit.loads) {
      const std::size_t i = position_of.at(item);
      const Load& load = load_at(plan, circuit, i);
      if (load.kind != Load::Kind::starter && load.use_share < 1.0 && network.supply_of_load(i)) in_full.push_back(i);
    }
    if (in_full.empty()) continue;
    const auto add_full = [&](Case::Kind kind, const std::string& name) {
      CaseSetup& setup = add(kind, final_circuit.device, name + plan.items[final_circuit.device].id + " full");
      setup.circuit = &final_circuit;
      setup.in_full = in_full;
    };
    add_full(Case::Kind::full, "load ");
    const auto charges = [&](ItemId item) { return charging.count(item) > 0; };
    if (std::ranges::any_of(final_circuit.others, charges)) add_full(Case::Kind::load_charge, "load+charge ");
  }
  for (std::size_t i = 0; i < circuit.loads.size(); ++i) {
    if (load_at(plan, circuit, i).kind != Load::Kind::starter || !network.supply_of_load(i)) continue;
    const ItemId item = circuit.loads[i].item;
    add(Case::Kind::starter, item, "starter " + plan.items[item].id).alone = i;
  }
  return cases;
}

std::vector<CaseSetup> list_highest_cases(const std::vector<CaseSetup>& cases, const Circuit& circuit,
                                          const WiredNetwork& network, const SupplyState& highest,
                                          const std::string& ways_text) {
  std::vector<CaseSetup> list;
  if (!network.draws_more_at(highest)) return list;
  std::set<ItemId> draws_more;
  for (std::size_t i = 0; i < circuit.loads.size(); ++i)
    if (network.draws_more_at(highest, i)) draws_more.insert(circuit.loads[i].item);
  const auto is_one = [&](ItemId load) { return draws_more.count(load) > 0; };
  for (const CaseSetup& setup : cases) {
    const Case::Kind kind = setup.at.kind;
    if (kind == Case::Kind::charge || kind == Case::Kind::starter) continue;
    if (setup.circuit && std::ranges::none_of(setup.circuit->loads, is_one)) continue;
    list.push_back(setup);
    Case& at = list.back().at;
    at.at_highest = true;
    at.name.insert(at.name.size() - suffix_of(ways_text).size(), " highest");
  }
  return list;
}

std::vector<std::size_t> islands_of(const FinalCircuit& final_circuit, const Circuit& circuit,
                                    const WiredNetwork& network) {
  std::vector<std::size_t> islands;
  for (const BranchId branch : final_circuit.branches) islands.push_back(network.island_of(circuit.branches[branch].a));
  std::ranges::sort(islands);
  islands.erase(std::unique(islands.begin(), islands.end()), islands.end());
  return islands;
}

std::vector<CaseBatch> in_batches(const std::vector<CaseSetup>& cases, const Circuit& circuit,
                                  const WiredNetwork& network) {
  std::vector<CaseBatch> single, shared;
  std::map<std::size_t, std::size_t> taken;  // by island: so many batches have a circuit in it
  for (const CaseSetup& setup : cases) {
    if (setup.at.kind != Case::Kind::full) {
      single.push_back({&setup});
      continue;
    }
    std::size_t at = 0;
    const std::vector<std::size_t> islands = islands_of(*setup.circuit, circuit, network);
    for (const std::size_t island : islands) at = std::max(at, taken[island]);
    for (const std::size_t island : islands) taken[island] = at + 1;
    if (at == shared.size()) shared.emplace_back();
    shared[at].push_back(&setup);
  }
  single.insert(single.end(), shared.begin(), shared.end());
  return single;
}

std::vector<double> shares_at_use(const Plan& plan, const Circuit& circuit) {
  std::vector<double> shares;
  for (std::size_t i = 0; i < circuit.loads.size(); ++i) {
    const Load& load = load_at(plan, circuit, i);
    shares.push_back(load.kind == Load::Kind::starter ? 0.0 : load.use_share);
  }
  return shares;
}

CaseDemands demands_in(const CaseBatch& batch, const std::vector<double>& at_use) {
  const CaseSetup& first = *batch.front();
  CaseDemands demands;
  const bool only_charging = first.at.kind == Case::Kind::charge;
  demands.coils = !only_charging;
  demands.sources_charge = only_charging;
  demands.converter_rests = first.rests;
  demands.converters_charge = only_charging || first.at.kind == Case::Kind::load_charge;
  if (only_charging || first.alone)
    demands.load_share.assign(at_use.size(), 0.0);
  else
    demands.load_share = at_use;
  if (first.alone) demands.load_share[*first.alone] = 1.0;
  for (const CaseSetup* setup : batch)
    for (const std::size_t i : setup->in_full) demands.load_share[i] = 1.0;
  return demands;
}

}  // namespace loomleaf
