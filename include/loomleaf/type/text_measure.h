// How wide a text is. Sizes are given by the height of its capitals, as drawing standards do.
#pragma once

#include <memory>
#include <string>
#include <string_view>

namespace loomleaf {

struct TextStyle {
  double cap_mm = 2.0;           // height of a capital
  bool bold = false;
  bool operator==(const TextStyle&) const = default;
};

// Measures in mm with the project's own fonts alone (fonts/*.otf, *.ttf), whatever the system has.
class TextMeasure {
 public:
  explicit TextMeasure(const std::string& fonts_folder);   // throws std::runtime_error where a font file is missing
  ~TextMeasure();
  TextMeasure(TextMeasure&&) noexcept;

  double width(std::string_view text, TextStyle style) const;          // advance width, mm
  double ascent(TextStyle style) const;                                // from the baseline up to the highest stroke of a line, mm
  double descent(TextStyle style) const;                               // from the baseline down, mm
  int missing_glyphs(std::string_view text, TextStyle style) const;    // characters that no font of ours has
  double font_size_pt(TextStyle style) const;                          // the size that gives these capitals
  // The longest beginning of `text` that fits in `width_mm`, with an ellipsis where something was left out.
  std::string fitted(std::string_view text, TextStyle style, double width_mm) const;

  struct Fonts;                                                        // for `render`, which draws with the same fonts
  const Fonts& fonts() const { return *fonts_; }

 private:
  std::unique_ptr<Fonts> fonts_;
};

}  // namespace loomleaf
