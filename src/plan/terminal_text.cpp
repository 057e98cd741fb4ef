#include "loomleaf/plan/plan.h"

namespace loomleaf {

std::string terminal_text(const Plan& plan, TerminalId id) {
  const Terminal& terminal = plan.terminals[id];
  const std::string& item = plan.items[terminal.item].id;
  if (terminal.name.empty()) return item;
  const bool is_sign = terminal.role == TerminalRole::plus || terminal.role == TerminalRole::minus;
  return is_sign ? item + terminal.name : item + "." + terminal.name;
}

}  // namespace loomleaf
