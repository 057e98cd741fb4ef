#include "loomleaf/stock/rulebook.h"

#include <algorithm>

namespace loomleaf {

namespace {

constexpr Temperature kTemperatureStep = celsius(1e-6);  // what a conversion from Fahrenheit may lose

// The rows of the thickest listed size that is no thicker than `size`: the table for its insulation, and the cap.
struct RowsOfSize {
  const AmpacityRow* table = nullptr;
  const AmpacityRow* cap = nullptr;
};

RowsOfSize rows_of(const std::vector<AmpacityRow>& all, const WireSize& size, std::optional<Temperature> insulation) {
  const Area wanted = nominal_area(size);
  Area listed{};
  for (const AmpacityRow& row : all) {
    const Area area = nominal_area(row.size);
    if (area <= wanted) listed = std::max(listed, area);
  }
  RowsOfSize found;
  for (const AmpacityRow& row : all) {
    if (nominal_area(row.size) != listed) continue;
    if (!row.insulation) {
      found.cap = &row;
    } else if (insulation) {
      const bool fits = *row.insulation <= *insulation + kTemperatureStep;
      if (fits && (!found.table || *row.insulation > *found.table->insulation)) found.table = &row;
    } else if (!found.table || row.may_carry < found.table->may_carry) {
      found.table = &row;
    }
  }
  // A cap tells more of a conductor of unknown insulation than a table that holds for warm insulation alone.
  if (!insulation && found.cap && found.table && found.table->may_carry > found.cap->may_carry) found.table = nullptr;
  return found;
}

// The warmest table that holds for this insulation, without one the coolest.
std::optional<Temperature> table_for(const std::vector<AmbientRow>& rows, std::optional<Temperature> insulation) {
  std::optional<Temperature> best;
  for (const AmbientRow& row : rows) {
    if (insulation && row.insulation > *insulation + kTemperatureStep) continue;
    const bool better = !best || (insulation ? row.insulation > *best : row.insulation < *best);
    if (better) best = row.insulation;
  }
  return best;
}

}  // namespace

WireSize Rulebook::judged_as(const WireSize& size) const {
  const bool as_awg = size.system == WireSize::System::sae && sae_counts_as_awg.value;
  return as_awg ? WireSize::awg(size.gauge) : size;
}

std::optional<Figure<Current>> Rulebook::ampacity_of(const WireSize& size,
                                                     std::optional<Temperature> insulation) const {
  return derated_ampacity(size, insulation, 1.0);
}

std::optional<Figure<Current>> Rulebook::derated_ampacity(const WireSize& size, std::optional<Temperature> insulation,
                                                          double factor) const {
  const auto [table, cap] = rows_of(ampacity, judged_as(size), insulation);
  if (!table && !cap) return std::nullopt;
  if (!table) return Figure<Current>{cap->may_carry * factor, cap->from};
  const Figure<Current> derated{table->may_carry * factor, table->from};
  if (cap && cap->may_carry <= derated.value) return Figure<Current>{cap->may_carry, cap->from};
  return derated;
}

std::optional<LookedUpAs> Rulebook::nearest_above(const WireSize& size, std::optional<Temperature> insulation) const {
  const auto known = [&](const WireSize& listed) -> std::optional<LookedUpAs> {
    if (ampacity_of(listed, insulation)) return LookedUpAs{listed, insulation};
    const AmpacityRow* const coolest = rows_of(ampacity, judged_as(listed), std::nullopt).table;
    return coolest ? std::optional(LookedUpAs{listed, coolest->insulation}) : std::nullopt;
  };
  if (const auto same_size = known(size)) return same_size;
  const auto thinnest =
      std::ranges::min_element(ampacity, {}, [](const AmpacityRow& row) { return nominal_area(row.size); });
  return thinnest == ampacity.end() ? std::nullopt : known(thinnest->size);
}

Figure<double> Rulebook::device_allowance(Voltage highest) const {
  for (const AllowanceRow& row : device_allowances)
    if (!row.below || highest < *row.below) return {row.share, row.from};
  return {1.0, {}};
}

Figure<double> Rulebook::ambient_factor(const WireSize& size, std::optional<Temperature> insulation,
                                        Temperature at) const {
  if (at <= ambient_reference + kTemperatureStep) return {1.0, {}};
  const AmpacityRow* const carries = rows_of(ampacity, judged_as(size), insulation).table;
  const std::optional<Temperature> table = table_for(ambient, carries ? carries->insulation : insulation);
  Figure<double> not_permitted{0.0, {}};
  for (const AmbientRow& row : ambient) {
    if (!table || row.insulation != *table) continue;
    if (at <= row.up_to + kTemperatureStep) return {row.factor, row.from};
    not_permitted.from = row.from;
  }
  return not_permitted;
}

Figure<double> Rulebook::grouping_factor(int count) const {
  Figure<double> found{1.0, {}};
  for (const GroupingRow& row : grouping) {
    if (count >= row.from_count) found = {row.factor, row.from};
  }
  return found;
}

std::optional<Figure<WireSize>> Rulebook::least_size(bool in_sheath) const {
  const MinSizeRow* found = nullptr;
  for (const MinSizeRow& row : least_sizes) {
    if (row.in_sheath == in_sheath || (!row.in_sheath && !found)) found = &row;
  }
  return found ? std::optional<Figure<WireSize>>({found->least, found->from}) : std::nullopt;
}

}  // namespace loomleaf
