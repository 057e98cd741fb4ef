#include "short_circuit/support/shorted.h"

#include <gtest/gtest.h>

#include <limits>
#include <stdexcept>

namespace loomleaf::test {

Shorted::Shorted(const std::string& text) {
  const SourceText source("plan.loom", text);
  seen = examine(source, TemplateFolders{{LOOMLEAF_ROOT "/templates"}});
  for (const TemplateError& error : seen.template_errors) ADD_FAILURE() << error.file << ": " << error.message;
  for (const Complaint& complaint : seen.complaints) ADD_FAILURE() << to_text(complaint, source);
}

ItemId Shorted::item(const std::string& id) const {
  for (const ItemId item : seen.plan.items.ids())
    if (seen.plan.items[item].id == id) return item;
  throw std::out_of_range(id);
}

ConductorId Shorted::conductor(const std::string& id) const {
  for (const ConductorId conductor : seen.plan.conductors.ids())
    if (seen.plan.conductors[conductor].id == id) return conductor;
  throw std::out_of_range(id);
}

double Shorted::ohm(const std::string& name) const {
  for (const BranchId id : seen.circuit.branches.ids()) {
    const Branch& branch = seen.circuit.branches[id];
    const std::string& its =
        branch.conductor ? seen.plan.conductors[*branch.conductor].id : seen.plan.items[*branch.item].id;
    if (its == name) return seen.study.working.branch_resistance[id].in(ohms);
  }
  throw std::out_of_range(name);
}

double Shorted::prospective(const std::string& device) const {
  const auto& found = seen.study.shorts.devices[item(device)];
  return !found.empty() ? found.front().current.in(amperes) : std::numeric_limits<double>::quiet_NaN();
}

std::vector<std::string> Shorted::before(const std::string& device) const {
  return names(seen.study.shorts.devices[item(device)].front().before);
}

double Shorted::at_far_end(const std::string& id) const {
  const auto& found = seen.study.shorts.conductors[conductor(id)];
  return found ? found->current.in(amperes) : std::numeric_limits<double>::quiet_NaN();
}

double Shorted::clears(const std::string& id) const {
  const auto& found = seen.study.shorts.conductors[conductor(id)];
  return found && found->clears ? found->clears->in(seconds) : std::numeric_limits<double>::infinity();
}

const LastingShort* Shorted::lasting(const std::string& subject) const {
  for (const LastingShort& one : seen.study.shorts.lasting)
    if (one.subject == conductor(subject)) return &one;
  return nullptr;
}

std::vector<std::string> Shorted::names(const std::vector<ItemId>& items) const {
  std::vector<std::string> names;
  for (const ItemId id : items) names.push_back(seen.plan.items[id].id);
  return names;
}

}  // namespace loomleaf::test
