#include "loomleaf/takeoff/labels.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <unordered_map>
#include <utility>

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

Label core_label(const Plan& plan, const Study& study, RunId run, ConductorId id, bool from_end) {
  const Conductor& conductor = plan.conductors[id];
  Label label;
  label.id = conductor.id;
  label.run = run;
  label.at_from_end = from_end;
  label.lands_at = terminal_text(plan, end_of(conductor, from_end));
  label.far_end = terminal_text(plan, end_of(conductor, !from_end));
  label.fuse = fuse_text(plan, study, {id});
  label.size = joined(size_text(plan.runs[run]), conductor.colour ? code_of(*conductor.colour) : std::string());
  label.place = place_of(plan, end_of(conductor, from_end));
  return label;
}

Label sheath_label(const Plan& plan, const Study& study, RunId id, bool from_end) {
  const Run& run = plan.runs[id];
  Label label;
  label.id = run.id;
  label.run = id;
  label.at_from_end = from_end;
  label.is_sheath = true;
  label.lands_at = items_at_end(plan, run, from_end);
  label.far_end = items_at_end(plan, run, !from_end);
  label.fuse = fuse_text(plan, study, run.conductors);
  label.size = run.size ? fmt::format("{}x{}", run.conductors.size(), to_text(*run.size)) : std::string();
  label.place = place_of(plan, end_of(plan.conductors[run.conductors.front()], from_end));
  return label;
}

}  // namespace

std::vector<Label> list_labels(const Plan& plan, const Circuit&, const Study& study) {
  std::vector<Label> labels;
  for (const RunId id : plan.runs.ids()) {
    const Run& run = plan.runs[id];
    if (run.conductors.empty()) continue;
    const bool each_core = !run.is_cable || cores_part(plan, run);
    if (run.is_cable)
      for (const bool from_end : {true, false}) labels.push_back(sheath_label(plan, study, id, from_end));
    if (each_core)
      for (const ConductorId core : run.conductors)
        for (const bool from_end : {true, false}) labels.push_back(core_label(plan, study, id, core, from_end));
  }
  // By place in the plan's order of places, what stands nowhere last; the sort keeps the order of runs and ends.
  std::vector<std::pair<std::size_t, Label>> by_place;
  std::unordered_map<std::string, std::size_t> order;
  for (const Place& place : plan.places) order.emplace(place.id, order.size());
  for (Label& label : labels) {
    const auto place = order.find(label.place);
    by_place.emplace_back(place == order.end() ? order.size() : place->second, std::move(label));
  }
  std::stable_sort(by_place.begin(), by_place.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  for (std::size_t i = 0; i < labels.size(); ++i) labels[i] = std::move(by_place[i].second);
  return labels;
}

}  // namespace loomleaf
