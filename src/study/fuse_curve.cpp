#include "loomleaf/study/fuse_curve.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace loomleaf {
namespace {

// The gates that have a lower limit.
std::vector<const TimeGate*> lower_gates(const FuseFamily& family) {
  std::vector<const TimeGate*> gates;
  for (const TimeGate& gate : family.gates)
    if (gate.no_sooner) gates.push_back(&gate);
  return gates;
}

}  // namespace

std::optional<Duration> opens_no_sooner(const FuseFamily& family, Current rating, Current current) {
  const double times = current / rating;
  const std::vector<const TimeGate*> gates = lower_gates(family);
  if (times <= 1.0 || gates.empty()) return std::nullopt;
  const auto above =
      std::find_if(gates.begin(), gates.end(), [&](const TimeGate* gate) { return gate->times >= times; });
  // Below the first gate it opens no sooner than at that gate.
  if (above == gates.begin()) return gates.front()->no_sooner;
  if (above == gates.end()) return *gates.back()->no_sooner * std::pow(gates.back()->times / times, 2.0);
  const TimeGate &low = **(above - 1), &high = **above;
  const double t_low = low.no_sooner->in(seconds), t_high = high.no_sooner->in(seconds);
  if (t_low <= 0.0 || t_high <= 0.0) return high.no_sooner;
  const double part = std::log(times / low.times) / std::log(high.times / low.times);
  return seconds(t_low * std::pow(t_high / t_low, part));
}

std::optional<bool> rides_through(const FuseFamily& family, Current rating, Current current, Duration lasting) {
  if (current <= rating) return true;
  if (lower_gates(family).empty()) return std::nullopt;
  const std::optional<Duration> opens = opens_no_sooner(family, rating, current);
  return !opens || *opens >= lasting;
}

}  // namespace loomleaf
