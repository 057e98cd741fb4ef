#include <cmath>
#include <cstdint>
#include <stdexcept>

#include "loomleaf/render/render.h"
#include "paint_page.h"

namespace loomleaf {
namespace {

constexpr double kMmPerInch = 25.4;
constexpr double kMostPixels = 32767.0;            // Cairo's limit on a side
constexpr std::size_t kAfterHeader = 8 + 12 + 13;  // the signature and the IHDR chunk

std::string big_endian(std::uint32_t value) {
  std::string bytes;
  for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>((value >> shift) & 0xFFu);
  return bytes;
}

// The checksum of PNG chunks (ISO/IEC 15948, annex D).
std::uint32_t crc_of(std::string_view bytes) {
  std::uint32_t crc = 0xFFFFFFFFu;
  for (const char byte : bytes) {
    crc ^= static_cast<unsigned char>(byte);
    for (int bit = 0; bit < 8; ++bit) crc = (crc >> 1) ^ ((crc & 1u) != 0 ? 0xEDB88320u : 0u);
  }
  return ~crc;
}

// The chunk that says the resolution, which Cairo leaves out: without it 1:1 prints come out in any size.
std::string resolution_chunk(double dots_per_inch) {
  const auto dots_per_metre = static_cast<std::uint32_t>(std::lround(dots_per_inch / kMmPerInch * 1000.0));
  const std::string content = "pHYs" + big_endian(dots_per_metre) + big_endian(dots_per_metre) + '\x01';
  return big_endian(9) + content + big_endian(crc_of(content));
}

}  // namespace

std::string to_png(const Page& page, const TextMeasure& type, double dots_per_inch) {
  const double scale = dots_per_inch / kMmPerInch;
  const double width = std::ceil(page.width_mm * scale - 1e-6), height = std::ceil(page.height_mm * scale - 1e-6);
  if (!(width >= 1.0 && height >= 1.0 && width <= kMostPixels && height <= kMostPixels))
    throw std::runtime_error("a picture must be between 1 and 32767 dots wide and high");
  const SurfaceHandle surface(
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(width), static_cast<int>(height)));
  const ContextHandle cairo(cairo_create(surface.get()));
  cairo_set_source_rgb(cairo.get(), 1.0, 1.0, 1.0);
  cairo_paint(cairo.get());
  cairo_scale(cairo.get(), scale, scale);
  paint_page(cairo.get(), page, type);
  expect_sound(cairo_status(cairo.get()));
  std::string png;
  expect_sound(cairo_surface_write_to_png_stream(surface.get(), append_bytes, &png));
  png.insert(kAfterHeader, resolution_chunk(dots_per_inch));
  return png;
}

}  // namespace loomleaf
