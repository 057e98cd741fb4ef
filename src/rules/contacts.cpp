#include "loomleaf/rules/contacts.h"

namespace loomleaf {

namespace {

std::optional<Current> contact_rating(const Item& item, int pole) {
  if (const Switch* as = item.as<Switch>()) return as->rating;
  if (const Shunt* as = item.as<Shunt>()) return as->rating;
  if (const Dimmer* as = item.as<Dimmer>()) return as->rating;
  if (const Relay* as = item.as<Relay>()) return as->contact_rating;
  if (const Connector* as = item.as<Connector>()) {
    const auto at = static_cast<std::size_t>(pole - 1);
    if (pole >= 1 && at < as->pole_ratings.size()) return as->pole_ratings[at];
  }
  return std::nullopt;
}

}  // namespace

std::vector<Contact> contacts_of(const Plan& plan, const Circuit& circuit) {
  IndexedList<ItemOf, std::vector<BranchId>> by_item(plan.items.size());
  for (const BranchId branch : circuit.branches.ids()) {
    const Branch& at = circuit.branches[branch];
    if (at.kind == BranchKind::contact) by_item[*at.item].push_back(branch);
  }
  std::vector<Contact> contacts;
  for (const ItemId item : plan.items.ids()) {
    for (const BranchId branch : by_item[item]) {
      contacts.push_back({branch, contact_rating(plan.items[item], circuit.branches[branch].pole)});
    }
  }
  return contacts;
}

}  // namespace loomleaf
