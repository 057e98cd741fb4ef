#include "loomleaf/rules/joints.h"

namespace loomleaf {

IndexedList<ItemOf, ItemEnds> ends_at_items(const Plan& plan) {
  IndexedList<ItemOf, ItemEnds> ends(plan.items.size());
  for (const ConductorId conductor : plan.conductors.ids()) {
    for (const TerminalId terminal : {plan.conductors[conductor].from, plan.conductors[conductor].to}) {
      ends[plan.terminals[terminal].item].conductors.push_back(conductor);
    }
  }
  for (const Item& item : plan.items) {
    if (item.on) ++ends[plan.terminals[*item.on].item].items_on;
  }
  return ends;
}

bool must_be_reached(const Item& item) {
  return item.is<Splice>() || item.is<Bus>() || item.is<Connector>() || item.is<Device>() || item.is<Relay>();
}

}  // namespace loomleaf
