// Text broken at spaces to fit an ordinary terminal.
#pragma once

#include <string>
#include <string_view>

namespace loomleaf {

// Each line starts with `indent`, the first with `first` in its place where that is given; a line break at the end.
std::string wrapped(std::string_view text, std::string_view indent);
std::string wrapped(std::string_view text, std::string_view first, std::string_view indent);

}  // namespace loomleaf
