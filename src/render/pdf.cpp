#include <cairo-pdf.h>
#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <stdexcept>

#include "loomleaf/render/render.h"
#include "loomleaf/type/drawable_text.h"
#include "paint_page.h"
#include "pdf_cross_reference.h"

namespace loomleaf {
namespace {

constexpr double kPtPerMm = 72.0 / 25.4;
constexpr const char* kNoDate = "1970-01-01";

bool is_plain_name(std::string_view name) {
  constexpr std::string_view kPlain = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.";
  return !name.empty() && name.find_first_not_of(kPlain) == std::string_view::npos;
}

// Cairo takes a malformed or unknown name without a word, or poisons the context; so names are checked before.
std::set<std::string> destination_names(const Drawing& drawing) {
  std::set<std::string> names;
  for (const Page& page : drawing.pages)
    for (const DrawingItem& item : page.items)
      if (const auto* destination = std::get_if<Destination>(&item)) {
        if (!is_plain_name(destination->name))
          throw std::runtime_error(fmt::format("`{}` is no name for a destination", drawable(destination->name)));
        if (!names.insert(destination->name).second)
          throw std::runtime_error(fmt::format("the destination `{}` stands on the sheets twice", destination->name));
      }
  return names;
}

void expect_destination(const std::set<std::string>& names, const std::string& name) {
  if (!names.contains(name))
    throw std::runtime_error(fmt::format("a link leads to `{}`, which no page has", drawable(name)));
}

void write_metadata(cairo_surface_t* surface, const Drawing& drawing) {
  const auto set = [&](cairo_pdf_metadata_t what, const std::string& text) {
    if (!text.empty()) cairo_pdf_surface_set_metadata(surface, what, drawable(text).c_str());
  };
  set(CAIRO_PDF_METADATA_TITLE, drawing.title);
  set(CAIRO_PDF_METADATA_AUTHOR, drawing.author);
  set(CAIRO_PDF_METADATA_SUBJECT, drawing.subject);
  set(CAIRO_PDF_METADATA_CREATOR, "loomleaf");
  set(CAIRO_PDF_METADATA_CREATE_DATE, (drawing.date.empty() ? kNoDate : drawing.date) + "T00:00:00Z");
}

// Links and destinations in points, since Cairo 1.16 does not transform them.
void write_navigation(cairo_t* cairo, const Page& page, const std::set<std::string>& names) {
  for (const DrawingItem& item : page.items) {
    if (const auto* destination = std::get_if<Destination>(&item)) {
      const std::string attributes = fmt::format("name='{}' x={:.3f} y={:.3f}", destination->name,
                                                 destination->at.x * kPtPerMm, destination->at.y * kPtPerMm);
      cairo_tag_begin(cairo, CAIRO_TAG_DEST, attributes.c_str());
      cairo_tag_end(cairo, CAIRO_TAG_DEST);
    } else if (const auto* link = std::get_if<LinkArea>(&item)) {
      expect_destination(names, link->destination);
      const std::string attributes =
          fmt::format("rect=[{:.3f} {:.3f} {:.3f} {:.3f}] dest='{}'", link->box.x * kPtPerMm, link->box.y * kPtPerMm,
                      link->box.w * kPtPerMm, link->box.h * kPtPerMm, link->destination);
      cairo_tag_begin(cairo, CAIRO_TAG_LINK, attributes.c_str());
      cairo_tag_end(cairo, CAIRO_TAG_LINK);
    }
  }
}

void write_outline(cairo_surface_t* surface, const Drawing& drawing, const std::set<std::string>& names) {
  std::vector<int> open = {CAIRO_PDF_OUTLINE_ROOT};  // the entry that each level hangs under
  for (const OutlineEntry& entry : drawing.outline) {
    expect_destination(names, entry.destination);
    const auto level = static_cast<std::size_t>(std::max(entry.level, 0));
    open.resize(std::min(level + 1, open.size()));
    const std::string target = fmt::format("dest='{}'", entry.destination);
    open.push_back(cairo_pdf_surface_add_outline(surface, open.back(), drawable(entry.title).c_str(), target.c_str(),
                                                 CAIRO_PDF_OUTLINE_FLAG_OPEN));
  }
}

}  // namespace

std::string to_pdf(const Drawing& drawing, const TextMeasure& type) {
  if (drawing.pages.empty()) throw std::runtime_error("there is no page to print");
  const std::set<std::string> names = destination_names(drawing);
  std::string pdf;
  const SurfaceHandle surface(cairo_pdf_surface_create_for_stream(append_bytes, &pdf, 1.0, 1.0));
  write_metadata(surface.get(), drawing);
  {
    const ContextHandle cairo(cairo_create(surface.get()));
    for (const Page& page : drawing.pages) {
      cairo_pdf_surface_set_size(surface.get(), page.width_mm * kPtPerMm, page.height_mm * kPtPerMm);
      cairo_save(cairo.get());
      cairo_scale(cairo.get(), kPtPerMm, kPtPerMm);
      paint_page(cairo.get(), page, type);
      cairo_restore(cairo.get());
      write_navigation(cairo.get(), page, names);
      cairo_show_page(cairo.get());
    }
    expect_sound(cairo_status(cairo.get()));
  }
  write_outline(surface.get(), drawing, names);
  cairo_surface_finish(surface.get());
  expect_sound(cairo_surface_status(surface.get()));
  free_unwritten_objects(pdf);
  return pdf;
}

}  // namespace loomleaf
