#include "loomleaf/type/text_measure.h"

#include <glib.h>

#include <vector>

#include "fonts.h"
#include "loomleaf/type/drawable_text.h"

namespace loomleaf {
namespace {

constexpr double kMmPerPt = 25.4 / 72.0;
constexpr std::string_view kEllipsis = "\xE2\x80\xA6";

// No sheet of ours holds a line of so many characters: what is longer is cut before it is looked at.
constexpr std::size_t kMostCharacters = 2000;

// The ends, in bytes, of the beginnings at which a text may be cut: never inside a letter with its marks.
std::vector<std::size_t> cut_places(const std::string& text) {
  std::vector<std::size_t> places;
  for (const char* p = text.data(); p < text.data() + text.size() && places.size() < kMostCharacters;
       p = g_utf8_next_char(p))
    if (!g_unichar_ismark(g_utf8_get_char(p))) places.push_back(static_cast<std::size_t>(p - text.data()));
  return places;
}

}  // namespace

TextMeasure::TextMeasure(const std::string& fonts_folder) : fonts_(std::make_unique<Fonts>(fonts_folder)) {}
TextMeasure::~TextMeasure() = default;
TextMeasure::TextMeasure(TextMeasure&&) noexcept = default;

double TextMeasure::font_size_pt(TextStyle style) const {
  return style.cap_mm / kMmPerPt / fonts_->face(style.bold).cap_em;
}

double TextMeasure::width(std::string_view text, TextStyle style) const {
  return fonts_->width_em(drawable(text), style.bold) * font_size_pt(style) * kMmPerPt;
}

double TextMeasure::ascent(TextStyle style) const {
  return fonts_->face(style.bold).ascent_em * font_size_pt(style) * kMmPerPt;
}

double TextMeasure::descent(TextStyle style) const {
  return fonts_->face(style.bold).descent_em * font_size_pt(style) * kMmPerPt;
}

int TextMeasure::missing_glyphs(std::string_view text, TextStyle style) const {
  return pango_layout_get_unknown_glyphs_count(fonts_->layout(drawable(text), style.bold, font_size_pt(style)).get());
}

std::string TextMeasure::fitted(std::string_view text, TextStyle style, double width_mm) const {
  const std::string whole = drawable(text);
  const std::vector<std::size_t> places = cut_places(whole);
  if (places.size() < kMostCharacters && width(whole, style) <= width_mm) return whole;
  std::size_t fits = 0, too_long = places.size();  // how many beginnings fit with the ellipsis behind them
  while (fits + 1 < too_long) {
    const std::size_t middle = (fits + too_long) / 2;
    const std::string cut = whole.substr(0, places[middle]).append(kEllipsis);
    (width(cut, style) <= width_mm ? fits : too_long) = middle;
  }
  if (fits == 0) return width(kEllipsis, style) <= width_mm ? std::string(kEllipsis) : std::string();
  std::string cut = whole.substr(0, places[fits]);
  while (!cut.empty() && cut.back() == ' ') cut.pop_back();
  return cut.append(kEllipsis);
}

}  // namespace loomleaf
