#include "loomleaf/study/fuse_curve.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace loomleaf {
namespace {

using Limit = std::optional<Duration> TimeGate::*;

// The gates that have this limit.
std::vector<const TimeGate*> gates_with(const FuseFamily& family, Limit limit) {
  std::vector<const TimeGate*> gates;
  for (const TimeGate& gate : family.gates)
    if (gate.*limit) gates.push_back(&gate);
  return gates;
}

// From the first gate on: log-log between two, with the same I2t beyond the last.
Duration along(const std::vector<const TimeGate*>& gates, Limit limit, double times) {
  const auto above =
      std::find_if(gates.begin(), gates.end(), [&](const TimeGate* gate) { return gate->times >= times; });
  if (above == gates.begin()) return *(gates.front()->*limit);
  if (above == gates.end()) return *(gates.back()->*limit) * std::pow(gates.back()->times / times, 2.0);
  const TimeGate &low = **(above - 1), &high = **above;
  const double t_low = (low.*limit)->in(seconds), t_high = (high.*limit)->in(seconds);
  if (t_low <= 0.0 || t_high <= 0.0) return *(high.*limit);
  const double part = std::log(times / low.times) / std::log(high.times / low.times);
  return seconds(t_low * std::pow(t_high / t_low, part));
}

}  // namespace

std::optional<Duration> opens_no_sooner(const FuseFamily& family, Current rating, Current current) {
  const double times = current / rating;
  const std::vector<const TimeGate*> gates = gates_with(family, &TimeGate::no_sooner);
  if (times <= 1.0 || gates.empty()) return std::nullopt;
  return along(gates, &TimeGate::no_sooner, times);  // below the first gate no sooner than at that gate
}

Opening opens_no_later(const FuseFamily& family, Current rating, Current current) {
  const double times = current / rating;
  const std::vector<const TimeGate*> gates = gates_with(family, &TimeGate::no_later);
  if (gates.empty()) return {};
  if (times < gates.front()->times) return {std::nullopt, true};
  return {along(gates, &TimeGate::no_later, times),
          times <= gates.back()->times || gates.back()->times >= counts_beyond};
}

std::optional<bool> rides_through(const FuseFamily& family, Current rating, Current current, Duration lasting) {
  if (current <= rating) return true;
  if (gates_with(family, &TimeGate::no_sooner).empty()) return std::nullopt;
  const std::optional<Duration> opens = opens_no_sooner(family, rating, current);
  return !opens || *opens >= lasting;
}

}  // namespace loomleaf
