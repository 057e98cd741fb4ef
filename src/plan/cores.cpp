#include "cores.h"

#include <fmt/format.h>

namespace loomleaf {

namespace {

std::vector<WireColour> colours_in(const Statement& statement) {
  const auto* colours = value_of<std::vector<WireColour>>(statement, PropertyKind::cores);
  return colours == nullptr ? std::vector<WireColour>() : *colours;
}

std::optional<std::size_t> count_in(const Statement& statement) {
  const int* count = value_of<int>(statement, PropertyKind::core_count);
  return count == nullptr || *count < 1 ? std::nullopt : std::optional(static_cast<std::size_t>(*count));
}

}  // namespace

Cores read_cores(const WithDefault& cable) {
  Cores cores;
  const Statement* saying = cable.saying({PropertyKind::cores, PropertyKind::core_count});
  if (saying == nullptr) return cores;
  cores.from_default = saying != &cable.own();
  cores.colours = colours_in(*saying);
  cores.count = count_in(*saying);
  // The usual colours name the cores of a cable that says its own number, where they suit it.
  if (cores.colours.empty() && !cores.from_default && cable.fallback() != nullptr) {
    cores.colours = colours_in(*cable.fallback());
    if (cores.colours.size() != cores.count) cores.colours.clear();
  } else if (!cores.colours.empty()) {
    cores.count = cores.colours.size();
  }
  return cores;
}

std::string core_id(const std::string& cable, const Cores& cores, std::size_t position) {
  return position < cores.colours.size() ? fmt::format("{}.{}", cable, to_text(cores.colours[position]))
                                         : fmt::format("{}.{}", cable, position + 1);
}

}  // namespace loomleaf
