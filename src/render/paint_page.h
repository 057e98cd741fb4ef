// One page of a display list on a Cairo context whose user unit is the millimetre.
#pragma once

#include <cairo.h>

#include "../type/fonts.h"
#include "loomleaf/sheets/display_list.h"

namespace loomleaf {

// Draws shapes and text. Groups, links and destinations leave no ink.
void paint_page(cairo_t* cairo, const Page& page, const TextMeasure& type);

// The point where a text starts on its baseline, before it is turned, given its anchor.
double anchor_shift(const TextRun& run, double width_mm);  // to the left of `at`, mm

// The rule under an underlined text: its distance from the baseline and its thickness, mm.
inline double underline_drop(const TextStyle& style) { return 0.35 * style.cap_mm; }
inline double underline_thickness(const TextStyle& style) { return 0.12 * style.cap_mm; }

struct SurfaceRelease {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct ContextRelease {
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
};
using SurfaceHandle = std::unique_ptr<cairo_surface_t, SurfaceRelease>;
using ContextHandle = std::unique_ptr<cairo_t, ContextRelease>;

// Throws std::runtime_error where Cairo has come to grief.
void expect_sound(cairo_status_t status);

// For Cairo's write callback: appends to the std::string behind `bytes` and always succeeds, since Cairo answers a
// failing callback with a crash or a silently shortened file.
cairo_status_t append_bytes(void* bytes, const unsigned char* data, unsigned int length);

}  // namespace loomleaf
