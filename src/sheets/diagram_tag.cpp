#include "diagram_tag.h"

#include <algorithm>

namespace loomleaf {
namespace {

constexpr double kTagGap = 0.4;   // from a wire to what stands on it
constexpr double kCodeGap = 1.0;  // from a name to the colour behind it

}  // namespace

// The whole tag stands on its line, so that nobody has to ask which of two lines it belongs to.
LineTag tag_of(const BlockSource& source, const FigureLine& line, bool named) {
  const TextMeasure& type = source.type;
  LineTag tag;
  double up = kTagGap + line_width(source.plan, line) / 2.0;
  const auto put = [&](double x, double y, const std::string& text, TextStyle style) {
    if (text.empty()) return;
    tag.texts.push_back({{x, y}, text, style, std::nullopt});
    tag.width = std::max(tag.width, x + type.width(text, style));
  };
  if (!line.details.empty()) {
    put(0.0, -up - type.descent(kSmallText), line.details, kSmallText);
    up += text_height(type, kSmallText);
  }
  const double baseline = -up - type.descent(named ? kLargeText : kSmallText);
  if (named) put(0.0, baseline, line.name, kLargeText);
  put(named ? type.width(line.name, kLargeText) + kCodeGap : 0.0, baseline, line.code, kSmallText);
  tag.height = up + text_height(type, named ? kLargeText : kSmallText);
  return tag;
}

}  // namespace loomleaf
