#include "worst_lasting.h"

#include <array>

#include "fault_loop.h"

namespace loomleaf {

void WorstLasting::take(const LastingShort& found) {
  const auto [place, is_new] = by_subject_.try_emplace(found.subject, found);
  LastingShort& worst = place->second;
  if (is_new) return;
  const int order = compare(found, worst);
  if (order > 0) worst = found;
  if (order != 0 || found.metal != worst.metal) return;
  for (const ConductorId id : found.shorted) add_sorted(worst.shorted, id);
  for (const TerminalId id : found.at) add_sorted(worst.at, id);
  for (const ItemId id : found.devices) add_sorted(worst.devices, id);
  for (const std::size_t ways : found.ways) add_sorted(worst.ways, ways);
}

std::vector<LastingShort> WorstLasting::all() const {
  std::vector<LastingShort> all;
  for (const auto& [subject, worst] : by_subject_) all.push_back(worst);
  return all;
}

// Of two alike the one at the subject's own end is plainer.
int WorstLasting::compare(const LastingShort& a, const LastingShort& b) {
  const auto figures = [](const LastingShort& of) {
    const double lasts_s = of.opens ? of.opens->in(seconds) : Cut{}.after_s;
    const double bears_s = of.bears ? of.bears->in(seconds) : 1.0;
    return std::array{of.overheats ? 1.0 : 0.0,
                      lasts_s / bears_s,
                      1.0 / bears_s,
                      of.shorted.front() == of.subject ? 1.0 : 0.0,
                      lasts_s,
                      of.current.in(amperes),
                      of.device_current.in(amperes)};
  };
  const auto of_a = figures(a), of_b = figures(b);
  for (std::size_t i = 0; i < of_a.size(); ++i)
    if (!is_alike(of_a[i], of_b[i])) return of_a[i] > of_b[i] ? 1 : -1;
  return 0;
}

}  // namespace loomleaf
