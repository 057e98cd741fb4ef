#include "loomleaf/stock/stock.h"

#include <algorithm>
#include <cmath>

#include "loomleaf/language/words.h"

namespace loomleaf {

const WireStock* Stock::find(const WireSize& size) const {
  const auto found = std::find_if(wires.begin(), wires.end(), [&](const WireStock& wire) { return wire.size == size; });
  return found == wires.end() ? nullptr : &*found;
}

const FuseFamily* Stock::find_family(std::string_view name) const {
  const std::string lower = lower_case(name);
  const auto found =
      std::find_if(families.begin(), families.end(), [&](const FuseFamily& f) { return f.name == lower; });
  return found == families.end() ? nullptr : &*found;
}

const InsulationKind* Stock::find_insulation(std::string_view name) const {
  const auto found = std::ranges::find(insulations, lower_case(name), &InsulationKind::name);
  return found == insulations.end() ? nullptr : &*found;
}

const InsulationKind::Row* InsulationKind::find(const std::vector<Row>& rows, const WireSize& size) {
  using System = WireSize::System;
  const auto found = std::ranges::find_if(rows, [&](const Row& row) {
    const bool both_gauges = row.size.system != System::metric && size.system != System::metric;
    return row.size == size || (both_gauges && row.size.gauge == size.gauge);
  });
  return found == rows.end() ? nullptr : &*found;
}

std::optional<Resistance> FuseFamily::resistance(Current rating) const {
  if (cold_resistance.empty() || rating <= Current()) return std::nullopt;
  const auto above = std::find_if(cold_resistance.begin(), cold_resistance.end(),
                                  [&](const auto& listed) { return listed.first >= rating; });
  if (above == cold_resistance.begin() || above == cold_resistance.end()) {
    const auto& [nearest_rating, nearest] = above == cold_resistance.end() ? cold_resistance.back() : *above;
    return nearest * (nearest_rating / rating);
  }
  const auto& [low_rating, low] = *(above - 1);
  const auto& [high_rating, high] = *above;
  const double share = std::log(rating / low_rating) / std::log(high_rating / low_rating);
  return low * std::pow(high / low, share);
}

std::optional<Current> FuseFamily::breaks_at(Voltage voltage) const {
  for (const auto& [up_to, current] : breaks_up_to) {
    if (voltage <= up_to) return current;
  }
  return std::nullopt;
}

}  // namespace loomleaf
