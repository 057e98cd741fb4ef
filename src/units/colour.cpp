#include "loomleaf/units/colour.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace loomleaf {
namespace {

// Names and letter codes of IEC 60757, in its order.
constexpr std::array<ColourName, 14> names{{
    {Colour::black, "black", "BK"},
    {Colour::brown, "brown", "BN"},
    {Colour::red, "red", "RD"},
    {Colour::orange, "orange", "OG"},
    {Colour::yellow, "yellow", "YE"},
    {Colour::green, "green", "GN"},
    {Colour::blue, "blue", "BU"},
    {Colour::violet, "violet", "VT"},
    {Colour::grey, "grey", "GY"},
    {Colour::white, "white", "WH"},
    {Colour::pink, "pink", "PK"},
    {Colour::gold, "gold", "GD"},
    {Colour::turquoise, "turquoise", "TQ"},
    {Colour::silver, "silver", "SR"},
}};

bool same_word(std::string_view a, std::string_view b) {
  return a.size() == b.size() &&
         std::ranges::equal(a, b, [](unsigned char x, unsigned char y) { return std::tolower(x) == std::tolower(y); });
}

}  // namespace

std::span<const ColourName> colour_names() { return names; }

std::optional<Colour> find_colour(std::string_view word) {
  constexpr std::size_t longest = 9;  // turquoise
  if (word.size() > longest) return std::nullopt;
  if (same_word(word, "gray")) return Colour::grey;
  if (same_word(word, "purple")) return Colour::violet;
  const auto* found = std::ranges::find_if(names, [&](const ColourName& row) { return same_word(row.name, word); });
  if (found == names.end()) return std::nullopt;
  return found->colour;
}

std::string_view name_of(Colour colour) { return names[static_cast<std::size_t>(colour)].name; }
std::string_view code_of(Colour colour) { return names[static_cast<std::size_t>(colour)].code; }

std::string to_text(const WireColour& colour) {
  std::string text{name_of(colour.base)};
  if (colour.tracer) text.append("/").append(name_of(*colour.tracer));
  return text;
}

std::string code_of(const WireColour& colour) {
  std::string code{code_of(colour.base)};
  if (colour.tracer) code += code_of(*colour.tracer);
  return code;
}

}  // namespace loomleaf
