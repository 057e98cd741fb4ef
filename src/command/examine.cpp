#include "loomleaf/command/examine.h"

#include "loomleaf/circuit/limits.h"

namespace loomleaf {

KnownNames known_names(const Stock& stock, const TemplateFolders& folders) {
  KnownNames known;
  for (const FuseFamily& family : stock.families) known.families.push_back(family.name);
  for (const WireStock& wire : stock.wires) known.sizes.push_back(wire.size);
  for (const InsulationKind& kind : stock.insulations) known.insulations.push_back(kind.name);
  known.rulebooks = folders.list("rulebooks");
  for (const Rule& rule : all_rules()) {
    known.rules.emplace_back(rule.name);
    if (rule.is_always_danger()) known.danger_rules.emplace_back(rule.name);
  }
  return known;
}

namespace {

// The statements go as soon as the plan is built: of a large plan they are a third of all.
Plan read_plan(const SourceText& source, const KnownNames& known, std::vector<Complaint>& complaints) {
  const Document document = read_document(source);
  PlanReading reading = build_plan(document, source, known);
  complaints = document.complaints;
  complaints.insert(complaints.end(), reading.complaints.begin(), reading.complaints.end());
  return std::move(reading.plan);
}

}  // namespace

Examination examine(const SourceText& source, const TemplateFolders& folders, std::optional<std::string> rulebook) {
  Examination result;

  Loaded<Stock> stock = load_stock(folders);
  result.stock = std::move(stock.value);
  result.template_errors = std::move(stock.errors);
  if (!result.template_errors.empty()) return result;

  result.plan = read_plan(source, known_names(result.stock, folders), result.complaints);
  RouteReading routes = find_routes(result.plan);
  result.routes = std::move(routes.routes);
  std::move(routes.complaints.begin(), routes.complaints.end(), std::back_inserter(result.complaints));
  result.circuit = build_circuit(result.plan);
  std::vector<Complaint> over = check_voltage_limits(result.plan, result.circuit);
  std::move(over.begin(), over.end(), std::back_inserter(result.complaints));
  sort_by_place(result.complaints);

  if (!result.complaints.empty()) return result;

  const std::string declared = result.plan.system.rules.empty() ? "rv" : result.plan.system.rules;
  Loaded<Rulebook> book = load_rulebook(folders, rulebook.value_or(declared));
  result.rulebook = std::move(book.value);
  result.template_errors = std::move(book.errors);
  if (!result.template_errors.empty()) return result;

  result.study = run_study(result.plan, result.routes, result.circuit, result.stock, result.rulebook);
  result.findings = run_rules(result.checked());
  return result;
}

}  // namespace loomleaf
