#include "loomleaf/stock/outside_diameter.h"

#include <algorithm>
#include <cmath>

namespace loomleaf {
namespace {

constexpr double kFlatGirth = 0.83;

// Diameter of a round bundle of n like strands over that of two side by side: circles packed in a circle.
double over_two(std::size_t cores) {
  constexpr double packed[] = {1.0, 2.0, 2.155, 2.414, 2.701, 3.0, 3.0};
  const std::size_t n = std::max<std::size_t>(1, cores);
  return (n <= 7 ? packed[n - 1] : std::sqrt(static_cast<double>(n) / 0.75)) / 2.0;
}

using Rows = std::vector<InsulationKind::Row>;

// Under the kind that is named, else of the usual wire of this size; nothing where it is not sold.
std::optional<Length> listed(const Stock& stock, const WireSize& size, std::string_view kind_name,
                             const Rows InsulationKind::*rows, Length WireStock::*usual) {
  if (kind_name.empty()) {
    const WireStock* wire = stock.find(size);
    return wire && wire->*usual > Length{} ? std::optional(wire->*usual) : std::nullopt;
  }
  const InsulationKind* kind = stock.find_insulation(kind_name);
  const InsulationKind::Row* row = kind ? InsulationKind::find(kind->*rows, size) : nullptr;
  return row ? std::optional(row->outside) : std::nullopt;
}

}  // namespace

std::optional<Outside> outside_of_wire(const Stock& stock, const WireSize& size, std::string_view insulation_kind) {
  const auto outside = listed(stock, size, insulation_kind, &InsulationKind::singles, &WireStock::single_od);
  return outside ? std::optional(Outside{*outside, *outside}) : std::nullopt;
}

std::optional<Outside> outside_of_cable(const Stock& stock, const WireSize& size, std::string_view insulation_kind,
                                        std::size_t cores) {
  const auto two_core = listed(stock, size, insulation_kind, &InsulationKind::two_core, &WireStock::two_core_od);
  if (!two_core) return std::nullopt;
  const Length widest = *two_core * over_two(cores);
  return Outside{widest, cores == 2 ? widest * kFlatGirth : widest};
}

}  // namespace loomleaf
