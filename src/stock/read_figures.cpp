#include <charconv>
#include <cmath>

#include "template_file.h"

namespace loomleaf {

std::optional<double> read_number(std::string_view text) {
  double value = 0.0;
  const char* const end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, value);
  if (error != std::errc() || stop != end || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::optional<WireSize> read_wire_size(std::string_view text) {
  const std::size_t space = text.find(' ');
  if (space == std::string_view::npos) return std::nullopt;
  const std::string_view figure = text.substr(0, space), unit = text.substr(space + 1);
  if (unit == "mm2") {
    const std::optional<double> area = read_number(figure);
    if (!area || *area < 0.01 || *area > 1000) return std::nullopt;
    return WireSize::metric(square_millimetres(*area));
  }
  if (unit != "AWG" && unit != "SAE") return std::nullopt;
  const auto sized = unit == "AWG" ? WireSize::awg : WireSize::sae;
  if (figure.size() == 3 && figure.substr(1) == "/0" && figure[0] >= '1' && figure[0] <= '4')
    return sized('1' - figure[0]);
  const std::optional<double> gauge = read_number(figure);
  if (!gauge || *gauge != std::floor(*gauge) || *gauge < 1 || *gauge > 40) return std::nullopt;
  return sized(static_cast<int>(*gauge));
}

std::optional<WireColour> read_colour(std::string_view text) {
  const std::size_t slash = text.find('/');
  const std::optional<Colour> base = find_colour(text.substr(0, slash));
  if (!base) return std::nullopt;
  if (slash == std::string_view::npos) return WireColour{*base, std::nullopt};
  const std::optional<Colour> tracer = find_colour(text.substr(slash + 1));
  return tracer ? std::optional<WireColour>({*base, tracer}) : std::nullopt;
}

}  // namespace loomleaf
