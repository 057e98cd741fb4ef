// Conductor colours: the names a plan may use and their letter codes.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace loomleaf {

// The colours of IEC 60757, in its order, which is also the order in which two codes are joined.
enum class Colour { black, brown, red, orange, yellow, green, blue, violet, grey, white, pink, gold, turquoise, silver };

struct ColourName {
  Colour colour;
  std::string_view name;  // "red"
  std::string_view code;  // "RD"
};
std::span<const ColourName> colour_names();

std::optional<Colour> find_colour(std::string_view word);  // any case; "gray" and "purple" are taken too
std::string_view name_of(Colour colour);
std::string_view code_of(Colour colour);

// A base colour with or without a tracer stripe.
struct WireColour {
  Colour base = Colour::black;
  std::optional<Colour> tracer;
  bool operator==(const WireColour&) const = default;
};
std::string to_text(const WireColour& colour);  // "red", "red/white": base first
std::string code_of(const WireColour& colour);  // IEC 60757 letters, base first: "RD", "RDWH"

}  // namespace loomleaf
