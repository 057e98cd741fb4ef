// What the study found, as the lists of `check --json`.
#pragma once

#include <functional>

#include "json_values.h"
#include "loomleaf/rules/rule.h"

namespace loomleaf {

// Each hands over its entries one by one: of a large plan they are many.
using TakeEntry = std::function<void(const Json&)>;

void list_conductors(const Checked& checked, const TakeEntry& take);
void list_loads(const Checked& checked, const TakeEntry& take);
void list_devices(const Checked& checked, const TakeEntry& take);
void list_contacts(const Checked& checked, const TakeEntry& take);
void list_joints(const Checked& checked, const TakeEntry& take);
void list_nodes(const Checked& checked, const TakeEntry& take);

}  // namespace loomleaf
