// What ends at each item.
#pragma once

#include <vector>

#include "loomleaf/plan/plan.h"

namespace loomleaf {

struct ItemEnds {
  std::vector<ConductorId> conductors;  // one entry an end: a loop back to the same item stands twice
  int items_on = 0;                     // items that are `on` it
  int count() const { return static_cast<int>(conductors.size()) + items_on; }
};

IndexedList<ItemOf, ItemEnds> ends_at_items(const Plan& plan);

// Whether an item must be reached again: a joint, plug, device or relay.
bool must_be_reached(const Item& item);

}  // namespace loomleaf
