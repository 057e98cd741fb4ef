#include "conduit_fill.h"

#include <numbers>

#include "found.h"
#include "loomleaf/stock/outside_diameter.h"

namespace loomleaf {

namespace {

// Absent where the stock knows no outside diameter.
std::optional<double> section_mm2(const Checked& checked, const Run& run) {
  const WireSize& size = checked.study.conductors[run.conductors.front()].size;
  const auto outside = run.is_cable ? outside_of_cable(checked.stock, size, run.insulation_kind, run.conductors.size())
                                    : outside_of_wire(checked.stock, size, run.insulation_kind);
  if (!outside) return std::nullopt;
  const double diameter = outside->widest.in(millimetres);
  return std::numbers::pi / 4 * diameter * diameter;
}

double limit_for(const Rulebook& book, std::size_t count) {
  double limit = 1.0;
  for (const auto& [from, share] : book.conduit_fill) {
    if (static_cast<int>(count) >= from) limit = share;
  }
  return limit;
}

}  // namespace

std::optional<ConduitFill> conduit_fill_of(const Checked& checked, LegId id) {
  const Leg& leg = checked.plan.legs[id];
  if (!leg.conduit_bore || checked.rulebook.conduit_fill.empty()) return std::nullopt;
  ConduitFill fill;
  for (const RunId id_of_run : checked.routes.on_leg[id]) {
    const Run& run = checked.plan.runs[id_of_run];
    const auto section = section_mm2(checked, run);
    if (!section) {
      fill.unknown.push_back(run.id);
      continue;
    }
    fill.section_mm2 += *section;
    fill.sections_mm2.push_back(*section);
    fill.runs.push_back(run.id);
  }
  if (fill.count() == 0) return std::nullopt;
  const double bore = leg.conduit_bore->in(millimetres);
  fill.bore_mm2 = std::numbers::pi / 4 * bore * bore;
  fill.limit = limit_for(checked.rulebook, fill.count());
  return fill;
}

bool is_too_full(const ConduitFill& fill) { return exceeds(fill.share(), fill.limit); }

}  // namespace loomleaf
