#include "loomleaf/circuit/dump.h"

#include <fmt/format.h>

namespace loomleaf {

namespace {

std::string text_of(const Plan& plan, const Branch& branch) {
  constexpr std::string_view kinds[] = {"conductor", "device", "contact"};
  const std::string& id = branch.conductor ? plan.conductors[*branch.conductor].id : plan.items[*branch.item].id;
  const std::string way = branch.changer ? fmt::format(" way {}", branch.way) : std::string();
  return fmt::format("{} {}{}: {} to {}", kinds[static_cast<std::size_t>(branch.kind)], id, way,
                     terminal_text(plan, branch.terminal_a), terminal_text(plan, branch.terminal_b));
}

}  // namespace

std::string node_text(const Plan& plan, const Circuit& circuit, NodeId node) {
  std::string text;
  for (const TerminalId terminal : circuit.nodes[node].terminals)
    text += (text.empty() ? "" : " = ") + terminal_text(plan, terminal);
  return text;
}

std::string dump(const Plan& plan, const Circuit& circuit) {
  std::string text;
  for (const NodeId node : circuit.nodes.ids()) text += "node " + node_text(plan, circuit, node) + "\n";
  for (const Branch& branch : circuit.branches) text += text_of(plan, branch) + "\n";
  return text;
}

}  // namespace loomleaf
