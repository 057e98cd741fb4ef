#include "splices_sold.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "found.h"
#include "loomleaf/units/format.h"

namespace loomleaf {

namespace {

constexpr double let_outside = 0.03;
constexpr double same_mm2 = 1e-9;

bool takes_ends(const Checked& checked, const SpliceKind& kind, const ItemEnds& ends) {
  if (kind.solid_only || kind.ways < ends.count()) return false;  // what a plan wires is stranded
  return std::ranges::all_of(ends.conductors, [&](ConductorId conductor) {
    const auto& size = run_of(checked.plan, conductor).size;
    return !size || goes_into(*size, {kind.least, kind.most});
  });
}

bool takes_current(const SpliceKind& kind, const std::optional<Worst<Current>>& current) {
  if (!current) return true;
  return kind.rating && !exceeds(abs(current->value).in(amperes), kind.rating->in(amperes));
}

}  // namespace

Area area_against(const WireSize& size, const SizeRange& takes) {
  using Sizes = WireSize::System;
  const bool by_number =
      size.system == Sizes::sae && takes.least.system == Sizes::awg && takes.most.system == Sizes::awg;
  return nominal_area(by_number ? WireSize::awg(size.gauge) : size);
}

Area least_that_goes_in(const SizeRange& takes) { return nominal_area(takes.least) * (1 - let_outside); }

Area most_that_goes_in(const SizeRange& takes) { return nominal_area(takes.most) * (1 + let_outside); }

bool goes_into(const WireSize& size, const SizeRange& takes) {
  const double area = area_against(size, takes).in(square_millimetres);
  return area >= least_that_goes_in(takes).in(square_millimetres)-same_mm2 &&
         area <= most_that_goes_in(takes).in(square_millimetres) + same_mm2;
}

std::string splice_sold_text(const Checked& checked, ItemId splice, const ItemEnds& ends) {
  const auto& current = checked.study.working.joints[splice];
  const auto greatness = [](const SpliceKind& kind) {
    return std::tuple(kind.ways, nominal_area(kind.most), kind.rating.value_or(Current{}));
  };
  const SpliceKind* best = nullptr;
  bool is_one_unrated = false;  // that takes the ends
  for (const SpliceKind& kind : checked.stock.splices) {
    if (!takes_ends(checked, kind, ends)) continue;
    is_one_unrated = is_one_unrated || !kind.rating;
    if (!takes_current(kind, current)) continue;
    if (!best || greatness(kind) < greatness(*best)) best = &kind;
  }
  if (!best && is_one_unrated)
    return "of the splices in the stock that take all that ends there none is known to bear its current";
  if (!best) return "no splice in the stock takes all that ends there and its current";
  return fmt::format("the stock's {} of {} ways takes {} to {}{}", best->what, best->ways, to_text(best->least),
                     to_text(best->most), best->rating ? " and " + to_text(*best->rating) : "");
}

}  // namespace loomleaf
