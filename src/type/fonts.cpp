#include "fonts.h"

#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>

#include <array>
#include <mutex>
#include <stdexcept>

namespace loomleaf {
namespace {

constexpr std::array kFiles = {"B612-Regular.otf", "B612-Bold.otf", "DejaVuSansCondensed.ttf",
                               "DejaVuSansCondensed-Bold.ttf"};
constexpr double kMeasuredAtPt = 1000.0;  // large, so that Pango's units of 1/1024 pt do not show

int font_count(FcConfig* config) {
  const FcFontSet* set = FcConfigGetFonts(config, FcSetApplication);
  return set ? set->nfont : 0;
}

// A set of fonts that holds our files alone.
FcConfig* own_fonts(const std::string& folder) {
  FcConfig* config = FcConfigCreate();
  for (const char* file : kFiles) {
    const std::string path = folder + "/" + file;
    const int before = font_count(config);
    const bool added = FcConfigAppFontAddFile(config, reinterpret_cast<const FcChar8*>(path.c_str()));
    if (!added || font_count(config) == before) {
      FcConfigDestroy(config);
      throw std::runtime_error("the font file " + path + " is missing or is no font");
    }
  }
  // Without a current set-up Pango reads the system's, for nothing. It is global, so the first one stays.
  static std::once_flag once;
  std::call_once(once, [config] { FcConfigSetCurrent(config); });
  return config;
}

}  // namespace

TextMeasure::Fonts::Fonts(const std::string& folder) {
  FcConfig* config = own_fonts(folder);
  map_ = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
  pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(map_), config);
  FcConfigDestroy(config);
  pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(map_), 72.0);
  context_ = pango_font_map_create_context(map_);
  cairo_font_options_t* options = cairo_font_options_create();
  // No hinting and no rounding: widths must scale with the size.
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context_, options);
  cairo_font_options_destroy(options);
  pango_context_set_round_glyph_positions(context_, FALSE);
  pango_context_set_base_dir(context_, PANGO_DIRECTION_LTR);
  pango_context_set_language(context_, pango_language_from_string("en"));
  regular_ = measure_face(false);
  bold_ = measure_face(true);
}

TextMeasure::Fonts::~Fonts() {
  g_object_unref(context_);
  g_object_unref(map_);
}

LayoutHandle TextMeasure::Fonts::layout(std::string_view drawable_text, bool bold, double size_pt) const {
  LayoutHandle layout(pango_layout_new(context_));
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family(font, kFamilies);
  pango_font_description_set_weight(font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font, size_pt * PANGO_SCALE);
  pango_layout_set_font_description(layout.get(), font);
  pango_font_description_free(font);
  pango_layout_set_auto_dir(layout.get(), FALSE);
  pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
  pango_layout_set_text(layout.get(), drawable_text.data(), static_cast<int>(drawable_text.size()));
  return layout;
}

TextMeasure::Fonts::Face TextMeasure::Fonts::measure_face(bool bold) const {
  const LayoutHandle capital = layout("H", bold, kMeasuredAtPt);
  PangoRectangle ink, line;
  pango_layout_get_extents(capital.get(), &ink, &line);
  const int baseline = pango_layout_get_baseline(capital.get());
  const double em = kMeasuredAtPt * PANGO_SCALE;
  return {ink.height / em, (baseline - line.y) / em, (line.y + line.height - baseline) / em};
}

double TextMeasure::Fonts::width_em(std::string_view drawable_text, bool bold) const {
  auto& known = bold ? bold_widths_ : regular_widths_;
  const auto [entry, is_new] = known.try_emplace(std::string(drawable_text), 0.0);
  if (is_new) {
    PangoRectangle line;
    pango_layout_get_extents(layout(drawable_text, bold, kMeasuredAtPt).get(), nullptr, &line);
    entry->second = line.width / (kMeasuredAtPt * PANGO_SCALE);
  }
  return entry->second;
}

}  // namespace loomleaf
