#include "catalogue.h"

#include <algorithm>
#include <array>

#include "loomleaf/language/words.h"

namespace loomleaf {

std::span<const Rule> all_rules() {
  // In order of severity, then name. A rule is added here, in catalogue.h and as a file of its own.
  static const std::array table = {
      // DANGER
      dead_short, gauge_mismatch, interrupt_rating, unfused_run, voltage_clash, voltage_rating,
      // WARNING
      crowded_splice, fuse_too_small, no_return, no_supply, over_voltage, overloaded_bus, overloaded_contact,
      overloaded_source, overloaded_splice, overloaded_wire, reversed_polarity, short_not_cleared,
      // CAUTION
      chassis_return, full_conduit, gauge_step, hidden_splice, least_size, low_voltage, switched_return, voltage_drop,
      // NOTICE
      colour_clash, idle_accept, long_tail, loose_end, not_checked, same_label, unused_item};
  return table;
}

const Rule* find_rule(std::string_view name) {
  const auto rules = all_rules();
  const auto found = std::ranges::find(rules, lower_case(name), &Rule::name);
  return found == rules.end() ? nullptr : &*found;
}

}  // namespace loomleaf
