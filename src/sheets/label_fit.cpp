#include "loomleaf/sheets/label_fit.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace loomleaf {
namespace {

constexpr double kTolerance = 1e-9;

double to_pass_mm(const LabelStock& stock, const Outside& outside, Length terminal) {
  const Length widest = stock.kind == LabelKind::sleeve ? std::max(outside.widest, terminal) : outside.widest;
  return widest.in(millimetres);
}

}  // namespace

bool goes_over(const LabelStock& stock, const LabelSize& size, const Outside& outside, Length terminal) {
  return to_pass_mm(stock, outside, terminal) <= size.most_width_mm + kTolerance;
}

bool holds_on(const LabelSize& size, const Outside& outside) {
  return outside.girth.in(millimetres) >= size.least_girth_mm - kTolerance;
}

const LabelSize* choose_size(const LabelStock& stock, const Outside& outside, Length terminal) {
  const auto found = std::find_if(stock.sizes.begin(), stock.sizes.end(), [&](const LabelSize& size) {
    return goes_over(stock, size, outside, terminal) && holds_on(size, outside);
  });
  return found == stock.sizes.end() ? nullptr : &*found;
}

double height_left(const LabelSize& size, Length girth) {
  if (size.supplied_bore_mm <= 0.0) return 1.0;
  const double four_sections = 4.0 * size.recovered_wall_mm * (size.recovered_bore_mm + size.recovered_wall_mm);
  // A wall of section pi w (b + w) about a bore b has an outer diameter b + 2 w, which is this.
  const auto outer = [&](double bore) { return std::sqrt(bore * bore + four_sections); };
  const double bore = std::clamp(girth.in(millimetres), size.recovered_bore_mm, size.supplied_bore_mm);
  return outer(bore) / outer(size.supplied_bore_mm);
}

std::string wanted_text(const LabelStock& stock, const Outside& outside, Length terminal) {
  const double width = to_pass_mm(stock, outside, terminal), girth = outside.girth.in(millimetres);
  if (stock.kind == LabelKind::sleeve)
    return fmt::format("a sleeve of {:.1f} mm or more that shrinks to {:.1f} mm or less",
                       std::ceil(width * kSleeveRoom * 10.0 - 1e-6) / 10.0, std::floor(girth * 10.0 + 1e-6) / 10.0);
  return fmt::format("a label for a wire {:.1f} mm thick", width);
}

}  // namespace loomleaf
