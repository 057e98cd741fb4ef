#include "loomleaf/takeoff/labels.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <tuple>

#include "loomleaf/units/format.h"

namespace loomleaf {
namespace {

constexpr std::size_t kMostDevicesNamed = 2;

const Item& item_at(const Plan& plan, TerminalId terminal) { return plan.items[plan.terminals[terminal].item]; }

TerminalId end_of(const Conductor& conductor, bool from_end) { return from_end ? conductor.from : conductor.to; }

// Whether the cores of a cable part, so that each needs a mark of its own.
bool cores_part(const Plan& plan, const Run& run) {
  if (run.conductors.size() > 2) return true;
  for (const bool from_end : {true, false})
    for (const ConductorId core : run.conductors)
      if (plan.terminals[end_of(plan.conductors[core], from_end)].item !=
          plan.terminals[end_of(plan.conductors[run.conductors.front()], from_end)].item)
        return true;
  return false;
}

std::string place_of(const Plan& plan, TerminalId terminal) {
  const auto& standing = item_at(plan, terminal).standing;
  return standing ? plan.places[standing->place].id : std::string();
}

std::string device_text(const Item& item, const Device& device) {
  return device.rating ? item.id + " " + to_text(*device.rating) : item.id;
}

std::string fuse_text(const Plan& plan, const Study& study, const std::vector<ConductorId>& conductors) {
  std::vector<ItemId> devices;
  for (const ConductorId conductor : conductors)
    if (conductor < study.protection.conductors.end_id())
      for (const ItemId device : study.protection.conductors[conductor].protected_by)
        // A limited source protects too, but it is no fuse to look for.
        if (plan.items[device].is<Device>() && std::find(devices.begin(), devices.end(), device) == devices.end())
          devices.push_back(device);
  std::sort(devices.begin(), devices.end());
  std::string text;
  for (std::size_t i = 0; i < std::min(devices.size(), kMostDevicesNamed); ++i)
    text += (i == 0 ? "" : ", ") + device_text(plan.items[devices[i]], *plan.items[devices[i]].as<Device>());
  if (devices.size() > kMostDevicesNamed) text += fmt::format(" and {} more", devices.size() - kMostDevicesNamed);
  return text;
}

std::string size_text(const Run& run) { return run.size ? to_text(*run.size) : std::string(); }

std::string joined(const std::string& a, const std::string& b) { return a.empty() || b.empty() ? a + b : a + " " + b; }

// The items that a cable's cores end at, each once, in the order of the cores.
std::string items_at_end(const Plan& plan, const Run& run, bool from_end) {
  std::vector<std::string> ids;
  for (const ConductorId core : run.conductors) {
    const std::string& id = item_at(plan, end_of(plan.conductors[core], from_end)).id;
    if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
  }
  return fmt::format("{}", fmt::join(ids, ", "));
}

// What all labels of one installation are read from.
struct Sources {
  const Plan& plan;
  const Study& study;
  const Stock& stock;
  IndexedList<ConductorOf, std::size_t> circuit_of;  // position in study.circuits, from 1; 0: none, or several
};

IndexedList<ConductorOf, std::size_t> find_circuits(const Plan& plan, const Circuit& circuit, const Study& study) {
  IndexedList<ConductorOf, std::size_t> circuit_of(plan.conductors.size(), std::size_t{0});
  for (std::size_t i = 0; i < study.circuits.size(); ++i)
    for (const BranchId branch : study.circuits[i].branches)
      if (const auto conductor = circuit.branches[branch].conductor; conductor && circuit_of[*conductor] == 0)
        circuit_of[*conductor] = i + 1;
  return circuit_of;
}

std::optional<Outside> outside_of(const Sources& from, const Run& run, bool is_sheath) {
  const ConductorId first = run.conductors.front();
  std::optional<WireSize> size = run.size;
  // A signal without a size is taken as the study takes it: as the rulebook's least.
  if (!size && first < from.study.conductors.end_id()) size = from.study.conductors[first].size;
  if (!size) return std::nullopt;
  return is_sheath ? outside_of_cable(from.stock, *size, run.insulation_kind, run.conductors.size())
                   : outside_of_wire(from.stock, *size, run.insulation_kind);
}

std::string circuit_text(const Sources& from, ConductorId conductor) {
  const std::size_t circuit = from.circuit_of[conductor];
  return circuit == 0 ? std::string() : from.plan.items[from.study.circuits[circuit - 1].device].id;
}

Label core_label(const Sources& from, RunId run, ConductorId id, bool from_end) {
  const Plan& plan = from.plan;
  const Conductor& conductor = plan.conductors[id];
  Label label;
  label.id = conductor.id;
  label.run = run;
  label.at_from_end = from_end;
  label.lands_at = terminal_text(plan, end_of(conductor, from_end));
  label.far_end = terminal_text(plan, end_of(conductor, !from_end));
  label.fuse = fuse_text(plan, from.study, {id});
  label.size = joined(size_text(plan.runs[run]), conductor.colour ? code_of(*conductor.colour) : std::string());
  label.place = place_of(plan, end_of(conductor, from_end));
  label.circuit = circuit_text(from, id);
  label.outside = outside_of(from, plan.runs[run], false);
  return label;
}

Label sheath_label(const Sources& from, RunId id, bool from_end) {
  const Plan& plan = from.plan;
  const Run& run = plan.runs[id];
  Label label;
  label.id = run.id;
  label.run = id;
  label.at_from_end = from_end;
  label.is_sheath = true;
  label.lands_at = items_at_end(plan, run, from_end);
  label.far_end = items_at_end(plan, run, !from_end);
  label.fuse = fuse_text(plan, from.study, run.conductors);
  label.size = run.size ? fmt::format("{}x{}", run.conductors.size(), to_text(*run.size)) : std::string();
  label.place = place_of(plan, end_of(plan.conductors[run.conductors.front()], from_end));
  label.circuit = circuit_text(from, run.conductors.front());
  label.outside = outside_of(from, run, true);
  return label;
}

// One pulls from a place, circuit by circuit: the place where a run starts, or else where it ends.
std::vector<RunId> in_order_of_pulling(const Sources& from) {
  const Plan& plan = from.plan;
  std::vector<std::tuple<std::size_t, std::size_t, RunId>> keyed;
  for (const RunId id : plan.runs.ids()) {
    if (plan.runs[id].conductors.empty()) continue;
    const Conductor& first = plan.conductors[plan.runs[id].conductors.front()];
    std::size_t place = plan.places.size();
    for (const TerminalId end : {first.to, first.from})
      if (const auto& standing = item_at(plan, end).standing) place = standing->place.value;
    keyed.emplace_back(place, from.circuit_of[plan.runs[id].conductors.front()], id);
  }
  std::sort(keyed.begin(), keyed.end());
  std::vector<RunId> runs;
  for (const auto& [place, circuit, id] : keyed) runs.push_back(id);
  return runs;
}

}  // namespace

std::vector<Label> list_labels(const Plan& plan, const Circuit& circuit, const Study& study, const Stock& stock) {
  const Sources from{plan, study, stock, find_circuits(plan, circuit, study)};
  std::vector<Label> labels;
  for (const RunId id : in_order_of_pulling(from)) {
    const Run& run = plan.runs[id];
    if (run.is_cable)
      for (const bool from_end : {true, false}) labels.push_back(sheath_label(from, id, from_end));
    if (!run.is_cable || cores_part(plan, run))
      for (const ConductorId core : run.conductors)
        for (const bool from_end : {true, false}) labels.push_back(core_label(from, id, core, from_end));
  }
  return labels;
}

}  // namespace loomleaf
