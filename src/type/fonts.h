// The project's fonts as Pango sees them. Shared by `type`, which measures, and `render`, which draws the very same.
#pragma once

#include <pango/pango.h>

#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>

#include "loomleaf/type/text_measure.h"

namespace loomleaf {

struct LayoutRelease {
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
using LayoutHandle = std::unique_ptr<PangoLayout, LayoutRelease>;

// One map and context, for one thread at a time.
struct TextMeasure::Fonts {
  explicit Fonts(const std::string& folder);
  ~Fonts();
  Fonts(const Fonts&) = delete;
  Fonts& operator=(const Fonts&) = delete;

  // A single line of `drawable` text, its user unit the point, ready to be measured or shown.
  LayoutHandle layout(std::string_view drawable_text, bool bold, double size_pt) const;

  // What does not depend on the size, in em; every figure is measured on the fonts themselves.
  struct Face {
    double cap_em = 0.7;
    double ascent_em = 1.0;
    double descent_em = 0.2;
  };
  const Face& face(bool bold) const { return bold ? bold_ : regular_; }

  // Widths in em, since they scale with the size.
  double width_em(std::string_view drawable_text, bool bold) const;

 private:
  Face measure_face(bool bold) const;

  PangoFontMap* map_ = nullptr;
  PangoContext* context_ = nullptr;
  Face regular_, bold_;
  mutable std::unordered_map<std::string, double> regular_widths_, bold_widths_;
};

inline constexpr const char* kFamilies = "B612, DejaVu Sans Condensed";  // the second for glyphs that the first lacks

}  // namespace loomleaf
