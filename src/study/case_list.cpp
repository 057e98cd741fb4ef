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

// More shifts than a ring of chargers needs, three.
constexpr std::size_t most_shifts = 8;

// Where one converter charges the battery that another draws from, what the first gives would hide what the second
// takes: they run in shifts, those that meet so in unlike ones, all others in each. By shift and converter: whether it
// rests. None where no two meet so.
std::vector<std::vector<bool>> charging_shifts(const Plan& plan, const Circuit& circuit, const WiredNetwork& network) {
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
  std::vector<std::size_t> in_turn;  // by name: where the plan declares them has no say
  for (std::size_t i = 0; i < count; ++i)
    if (!meets[i].empty()) in_turn.push_back(i);
  std::ranges::sort(in_turn, {},
                    [&](std::size_t i) -> const std::string& { return plan.items[circuit.converters[i].item].id; });
  std::vector<std::optional<std::size_t>> shift(count);
  std::size_t shifts = 0;
  for (const std::size_t i : in_turn) {  // each takes the first that none it meets has taken
    std::vector<bool> taken(most_shifts, false);
    for (const std::size_t other : meets[i])
      if (shift[other]) taken[*shift[other]] = true;
    const auto free = static_cast<std::size_t>(std::ranges::find(taken, false) - taken.begin());
    shift[i] = std::min(free, most_shifts - 1);
    shifts = std::max(shifts, *shift[i] + 1);
  }
  std::vector<std::vector<bool>> rests(shifts, std::vector<bool>(count, false));
  for (const std::size_t i : in_turn)
    for (std::size_t s = 0; s < shifts; ++s) rests[s][i] = s != *shift[i];
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
  for (std::vector<bool>& rests : charging_shifts(plan, circuit, network)) {
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
  std::vector<CaseBatch> batches;
  // Of a kind: the batches of its circuits, and by island how many of them have a circuit in it.
  struct Shared {
    std::vector<CaseBatch> batches;
    std::map<std::size_t, std::size_t> taken;
  };
  std::map<Case::Kind, Shared> shared;
  for (const CaseSetup& setup : cases) {
    if (!setup.circuit) {
      batches.push_back({&setup});
      continue;
    }
    auto& [of_kind, taken] = shared[setup.at.kind];
    std::size_t at = 0;
    const std::vector<std::size_t> islands = islands_of(*setup.circuit, circuit, network);
    for (const std::size_t island : islands) at = std::max(at, taken[island]);
    for (const std::size_t island : islands) taken[island] = at + 1;
    if (at == of_kind.size()) of_kind.emplace_back();
    of_kind[at].push_back(&setup);
  }
  for (const auto& [kind, of_kind] : shared)
    batches.insert(batches.end(), of_kind.batches.begin(), of_kind.batches.end());
  return batches;
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
