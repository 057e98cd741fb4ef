// Each stage, the whole check, and ngspice's operating point of the same network, over plans of 100 to 100,000
// conductors. Prints a table of processor times with the exponents of growth, the ratio to ngspice and the memory.
#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>

#include "bench/stages.h"
#include "loomleaf/circuit/limits.h"
#include "loomleaf/report/report.h"
#include "working/support/spice_reference.h"

namespace loomleaf::test {
namespace {

const std::vector<int> sizes = {100, 1000, 10000, 100000};
constexpr int largest_for_ngspice = 10000;

void parse(benchmark::State& state, int size) {
  const Stages& stages = Stages::of(size);
  for (auto _ : state) {
    const SourceText source("plan.loom", stages.text());
    benchmark::DoNotOptimize(build_plan(read_document(source), source, stages.known()));
  }
}

void circuit(benchmark::State& state, int size) {
  const Stages& stages = Stages::of(size);
  const Plan& plan = stages.examination().plan;
  for (auto _ : state) {
    benchmark::DoNotOptimize(find_routes(plan));
    const Circuit circuit = build_circuit(plan);
    benchmark::DoNotOptimize(check_voltage_limits(plan, circuit));
  }
}

void protection(benchmark::State& state, int size) {
  const Stages& stages = Stages::of(size);
  const Examination& of = stages.examination();
  for (auto _ : state)
    benchmark::DoNotOptimize(study_protection(of.plan, of.routes, of.circuit, of.study.conductors, of.rulebook,
                                              of.study.ways.all, of.study.sides));
}

void working_point(benchmark::State& state, int size) {
  const Stages& stages = Stages::of(size);
  const Examination& of = stages.examination();
  for (auto _ : state)
    benchmark::DoNotOptimize(study_working_points(of.plan, of.circuit, of.stock, of.rulebook, of.study.conductors,
                                                  of.study.ways.all, of.study.sides, of.study.circuits));
}

void rules(benchmark::State& state, int size) {
  const Stages& stages = Stages::of(size);
  for (auto _ : state) benchmark::DoNotOptimize(run_rules(stages.examination().checked()));
}

void json(benchmark::State& state, int size) {
  const Stages& stages = Stages::of(size);
  const SourceText source("plan.loom", stages.text());
  const Checked checked = stages.examination().checked();
  std::ofstream nowhere("/dev/null");
  for (auto _ : state) write_check_json(nowhere, &checked, stages.examination().findings, {}, {}, source);
}

void whole_check(benchmark::State& state, int size) {
  const Stages& stages = Stages::of(size);
  for (auto _ : state) {
    const SourceText source("plan.loom", stages.text());
    const Examination done = examine(source, bench_templates());
    benchmark::DoNotOptimize(findings_text(done.findings, source, {}));
  }
}

void report_run(benchmark::State& state, const std::vector<std::string>& command) {
  double most_bytes = 0.0;
  for (auto _ : state) {
    const Run run = run_program(command);
    state.SetIterationTime(run.cpu_s);
    most_bytes = std::max(most_bytes, run.most_bytes);
  }
  state.counters["bytes"] = most_bytes;
}

void program(benchmark::State& state, int size) {
  const std::filesystem::path file = plan_file(size);
  report_run(state, {LOOMLEAF_PROGRAM, "check", file.string()});
  std::filesystem::remove(file);
}

// The first load case alone. No `.nodeset`: it costs time with the square of the network.
void ngspice(benchmark::State& state, int size) {
  const Stages& stages = Stages::of(size);
  const Examination& of = stages.examination();
  const std::string plan = plan_file(size).string(), deck = plan + ".cir", raw = plan + ".raw";
  std::ofstream(deck) << "* first load case\n"
                      << spice_deck({of.plan, of.circuit, of.study.ways.all, of.study.working}, 0)
                      << ".options reltol=1e-9 vntol=1e-11 abstol=1e-7 gmin=1e-18 itl1=500\n.control\nset numdgt=15\n"
                         "set filetype=ascii\nop\nwrite "
                      << raw << " all\nquit\n.endc\n.end\n";
  report_run(state, {"ngspice", "-b", "-n", deck});
  if (!std::filesystem::exists(raw)) state.SkipWithError("ngspice found no working point");
  for (const std::string& file : {plan, deck, raw}) std::filesystem::remove(file);
}

struct Measure {
  std::string name;
  void (*run)(benchmark::State&, int conductors);
  bool by_itself = false;  // a program, timed by its own processor time
};

// The programs first, while this one is small.
const std::vector<Measure> measures = {
    {"loomleaf check", program, true}, {"ngspice", ngspice, true},       {"parse", parse},     {"circuit", circuit},
    {"protection", protection},        {"working point", working_point}, {"all rules", rules}, {"JSON", json},
    {"whole check", whole_check}};

// Keeps what was measured for the table.
class Keeper : public benchmark::ConsoleReporter {
 public:
  struct Result {
    double ms = 0.0, bytes = 0.0;
  };
  std::map<std::pair<std::string, int>, Result> results;

  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs) {
      const std::string name = run.benchmark_name();
      const std::size_t slash = name.find('/');
      Result& at = results[{name.substr(0, slash), std::stoi(name.substr(slash + 1))}];
      at.ms = run.run_name.time_type.empty() ? run.GetAdjustedCPUTime() : run.GetAdjustedRealTime();
      if (const auto bytes = run.counters.find("bytes"); bytes != run.counters.end()) at.bytes = bytes->second;
    }
    ConsoleReporter::ReportRuns(runs);
  }
};

// How often the whole network is solved at the least: under load and charging, in every standing of the changeovers, at
// the lowest and the highest voltage. Circuits in full and starters, which may share a solution, are left out.
long whole_cases(int size) {
  return std::ranges::count_if(Stages::of(size).examination().study.working.cases, [](const Case& at) {
    return !at.subject;
  });
}

void print_table(const Keeper& keeper) {
  const auto at = [&](const std::string& name, int size) {
    const auto found = keeper.results.find({name, size});
    return found == keeper.results.end() ? Keeper::Result{} : found->second;
  };
  fmt::print("\n{:16}", "ms of processor");
  for (const int size : sizes) fmt::print("{:>12}", size);
  fmt::print("{:>16}{:>16}{:>16}\n", "growth to 10,000", "to 100,000", "1,000..100,000");
  for (const Measure& measure : measures) {
    fmt::print("{:16}", measure.name);
    for (const int size : sizes) {
      const double ms = at(measure.name, size).ms;
      fmt::print("{:>12}", ms > 0.0 ? fmt::format("{:.4g}", ms) : "-");
    }
    for (const auto& [from, to] : {std::pair(1000, 10000), std::pair(10000, 100000), std::pair(1000, 100000)}) {
      const double less = at(measure.name, from).ms, more = at(measure.name, to).ms;
      const double exponent = std::log(more / less) / std::log(static_cast<double>(to) / from);
      fmt::print("{:>16}", less > 0.0 && more > 0.0 ? fmt::format("{:.2f}", exponent) : "-");
    }
    fmt::print("\n");
  }
  for (const int size : sizes) {
    const Keeper::Result ours = at("loomleaf check", size), theirs = at("ngspice", size);
    if (ours.ms > 0.0 && theirs.ms > 0.0)
      fmt::print(
          "{0} conductors: for one load case ngspice takes {1:.1f} times as long as `loomleaf check`, all rules "
          "included, "
          "for everything; for the {2} load and charging cases that the check solves, {3:.1f} times\n",
          size, theirs.ms / ours.ms, whole_cases(size), static_cast<double>(whole_cases(size)) * theirs.ms / ours.ms);
    const Keeper::Result base = at("loomleaf check", sizes.front());
    if (size > sizes.front() && ours.bytes > 0.0)
      fmt::print("{} conductors: {:.0f} bytes a conductor over the program with {}\n", size,
                 (ours.bytes - base.bytes) / (size - sizes.front()), sizes.front());
  }
}

void register_all() {
  for (const Measure& measure : measures)
    for (const int size : sizes) {
      if (measure.name == "ngspice" && size > largest_for_ngspice) continue;
      auto* registered =
          benchmark::RegisterBenchmark(fmt::format("{}/{}", measure.name, size).c_str(),
                                       [&measure, size](benchmark::State& state) { measure.run(state, size); });
      registered->Unit(benchmark::kMillisecond)->MinTime(0.2);
      if (measure.by_itself) registered->UseManualTime();
    }
}

}  // namespace
}  // namespace loomleaf::test

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 2;
  loomleaf::test::register_all();
  loomleaf::test::Keeper keeper;
  benchmark::RunSpecifiedBenchmarks(&keeper);
  loomleaf::test::print_table(keeper);
  return 0;
}
