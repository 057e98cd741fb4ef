#include "working/support/studied.h"

#include <algorithm>
#include <limits>
#include <stdexcept>

namespace loomleaf::test {
namespace {

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

double in_amperes(const std::optional<Worst<Current>>& worst) {
  return worst ? worst->value.in(amperes) : not_a_number;
}

WireStock wire(double area_mm2, double milliohm_per_metre) {
  WireStock stock;
  stock.size = WireSize::metric(square_millimetres(area_mm2));
  stock.area = square_millimetres(area_mm2);
  stock.per_metre_20C = milliohms(milliohm_per_metre);
  return stock;
}

}  // namespace

Stock round_stock() {
  Stock stock;
  stock.wires = {wire(1.0, 20.0), wire(2.0, 10.0), wire(10.0, 2.0)};
  FuseFamily slow;
  slow.name = "slow";
  slow.gates = {{2.0, seconds(1.0), std::nullopt}, {4.0, seconds(0.1), std::nullopt}};
  FuseFamily quick;
  quick.name = "quick";
  stock.families = {slow, quick};
  return stock;
}

Rulebook plain_rulebook() {
  Rulebook rulebook;
  rulebook.drop_limit = {0.03, {"the test's book", Known::practice}};
  rulebook.continuous_factor = {1.25, {}};
  rulebook.continuous_from = {hours(3.0), {}};
  return rulebook;
}

Studied study_text(const std::string& text) {
  return study_text("plan \"Test\"\nsystem 12 V conductor 20 C\n" + text, round_stock(), plain_rulebook());
}

Studied study_text(const std::string& text, const Stock& stock, const Rulebook& rulebook) {
  const SourceText source("test.loom", text);
  const Document document = read_document(source);
  PlanReading reading = build_plan(document, source, {});
  Studied studied;
  studied.plan = std::move(reading.plan);
  RouteReading routes = find_routes(studied.plan);
  studied.routes = std::move(routes.routes);
  std::vector<Complaint> complaints = document.complaints;
  complaints.insert(complaints.end(), reading.complaints.begin(), reading.complaints.end());
  complaints.insert(complaints.end(), routes.complaints.begin(), routes.complaints.end());
  if (!complaints.empty()) throw std::invalid_argument(to_text(complaints.front(), source));
  studied.circuit = build_circuit(studied.plan);
  studied.ways = enumerate_ways(studied.plan, studied.circuit).all;
  for (const Ways& ways : studied.ways) studied.sides.push_back(find_sides(studied.plan, studied.circuit, ways));
  studied.circuits = find_final_circuits(studied.plan, studied.circuit, studied.ways, studied.sides);
  studied.conductors = conductor_figures(studied.plan, studied.routes, studied.circuit, studied.sides, stock, rulebook);
  studied.points = study_working_points(studied.plan, studied.circuit, stock, rulebook, studied.conductors,
                                        studied.ways, studied.sides, studied.circuits);
  return studied;
}

ItemId Studied::item(const std::string& id) const {
  for (const ItemId item : plan.items.ids())
    if (plan.items[item].id == id) return item;
  throw std::out_of_range("no item " + id);
}

BranchId Studied::conductor(const std::string& id) const {
  for (const ConductorId conductor : plan.conductors.ids())
    if (plan.conductors[conductor].id == id) return circuit.branch_of[conductor];
  throw std::out_of_range("no conductor " + id);
}

BranchId Studied::contact(const std::string& id) const {
  for (const BranchId branch : circuit.branches.ids())
    if (circuit.branches[branch].item == item(id)) return branch;
  throw std::out_of_range("no branch of " + id);
}

const LoadResult& Studied::load(const std::string& id) const {
  for (std::size_t i = 0; i < circuit.loads.size(); ++i)
    if (circuit.loads[i].item == item(id)) return points.loads[i];
  throw std::out_of_range("no load " + id);
}

double Studied::ampere(BranchId branch) const { return in_amperes(points.branches[branch]); }
double Studied::asked_ampere(const std::string& id) const { return in_amperes(points.asked_for[conductor(id)]); }
double Studied::joint_ampere(const std::string& id) const { return in_amperes(points.joints[item(id)]); }
double Studied::source_ampere(const std::string& id) const { return in_amperes(points.sources[item(id)]); }
double Studied::continuous_ampere(const std::string& device) const {
  return in_amperes(points.continuous[item(device)]);
}

double Studied::load_volt(const std::string& id) const {
  const auto& voltage = load(id).voltage;
  return voltage ? voltage->value.in(volts) : not_a_number;
}

std::string Studied::case_of(BranchId branch) const {
  const auto& worst = points.branches[branch];
  return worst ? points.cases[worst->in_case].name : "none";
}

std::vector<std::string> Studied::case_names() const {
  std::vector<std::string> all;
  for (const Case& at : points.cases) all.push_back(at.name);
  return all;
}

std::vector<std::string> Studied::names(const std::vector<ItemId>& items) const {
  std::vector<std::string> all;
  for (const ItemId id : items) all.push_back(plan.items[id].id);
  return all;
}

const FinalCircuit* Studied::circuit_of(const std::string& device) const {
  for (const FinalCircuit& entry : circuits)
    if (entry.device == item(device)) return &entry;
  return nullptr;
}

std::vector<std::string> Studied::branches_of(const FinalCircuit& entry) const {
  std::vector<std::string> all;
  for (const BranchId id : entry.branches) {
    const Branch& branch = circuit.branches[id];
    all.push_back(branch.conductor ? plan.conductors[*branch.conductor].id : plan.items[*branch.item].id);
  }
  std::sort(all.begin(), all.end());
  return all;
}

}  // namespace loomleaf::test
