// What the study found, as the lists of `check --json`.
#pragma once

#include "json_values.h"
#include "loomleaf/rules/rule.h"

namespace loomleaf {

Json conductors_json(const Checked& checked);
Json loads_json(const Checked& checked);
Json devices_json(const Checked& checked);
Json contacts_json(const Checked& checked);
Json joints_json(const Checked& checked);
Json nodes_json(const Checked& checked);

}  // namespace loomleaf
