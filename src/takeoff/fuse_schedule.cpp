#include "loomleaf/takeoff/fuse_schedule.h"

#include <algorithm>
#include <optional>

#include "loomleaf/units/format.h"

namespace loomleaf {
namespace {

std::string loads_text(const Plan& plan, const FinalCircuit& circuit) {
  std::vector<std::string> names;
  for (const ItemId load : circuit.loads) {
    const Item& item = plan.items[load];
    const std::string& name = item.description.empty() ? item.id : item.description;
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  std::sort(names.begin(), names.end());  // whatever the order of the plan's lines
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

// One list by device, filled in one pass over whatever names devices.
class Schedule {
 public:
  Schedule(const Plan& plan, const Circuit& circuit, const Study& study) : plan_(plan), facts_(plan.items.size()) {
    for (const FinalCircuit& final_circuit : study.circuits)
      facts_[final_circuit.device].loads = loads_text(plan, final_circuit);
    for (const BranchId id : circuit.branches.ids()) read_branch(circuit, study, id);
    for (const ConductorId id : plan.conductors.ids()) read_conductor(study, id);
  }

  FuseRow row(const Item& item, ItemId id, const Device& device, const FuseColours& colours) const {
    const Facts& facts = facts_[id];
    FuseRow row;
    row.id = item.id;
    row.feeds = !item.description.empty() ? item.description : facts.joined ? facts.loads : "spare";
    row.rating = device.rating ? to_text(*device.rating) : "auto";
    row.family = device.family;
    row.colour = device.rating ? std::string(colours.find(device.family, *device.rating)) : std::string();
    row.wire = facts.thinnest ? to_text(*facts.thinnest) : std::string();
    row.current = facts.current && facts.joined ? to_text(*facts.current) : std::string();
    return row;
  }

 private:
  struct Facts {
    std::string loads;
    std::optional<WireSize> thinnest;
    std::optional<Current> current;
    bool joined = false;  // something is joined to its out
  };

  void read_branch(const Circuit& circuit, const Study& study, BranchId id) {
    const Branch& branch = circuit.branches[id];
    if (branch.kind != BranchKind::device || !branch.item) return;
    Facts& facts = facts_[*branch.item];
    facts.joined = circuit.at[branch.a].size() > 1 && circuit.at[branch.b].size() > 1;
    if (id < study.working.branches.end_id())
      if (const auto& worst = study.working.branches[id]) facts.current = abs(worst->value);
  }

  void read_conductor(const Study& study, ConductorId id) {
    const auto& size = plan_.runs[plan_.conductors[id].run].size;
    if (!size || !(id < study.protection.conductors.end_id())) return;
    const ConductorProtection& protection = study.protection.conductors[id];
    if (protection.side != ConductorSide::feed) return;
    for (const ItemId device : protection.protected_by) {
      auto& thinnest = facts_[device].thinnest;
      if (!thinnest || nominal_area(*size) < nominal_area(*thinnest)) thinnest = size;
    }
  }

  const Plan& plan_;
  IndexedList<ItemOf, Facts> facts_;
};

}  // namespace

std::vector<FuseRow> list_fuses(const Plan& plan, const Circuit& circuit, const Study& study,
                                const FuseColours& colours) {
  const Schedule schedule(plan, circuit, study);
  std::vector<FuseRow> rows;
  for (const ItemId id : plan.items.ids())
    if (const Device* device = plan.items[id].as<Device>())
      rows.push_back(schedule.row(plan.items[id], id, *device, colours));
  return rows;
}

}  // namespace loomleaf
