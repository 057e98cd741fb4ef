// A stock of other conductors than the installed ones, for figures that were published for other wire.
#pragma once

#include <fmt/format.h>

#include <initializer_list>
#include <string>

namespace loomleaf {

struct OtherWire {
  const char* size;
  double area_mm2, ohm_per_km;  // at 20 C
};

// The text of stock/wires.xml.
inline std::string wires_template(std::initializer_list<OtherWire> wires) {
  std::string text =
      "<wires format=\"1\"><conductors area_source=\"t\" area_known=\"seen\" resistance_source=\"t\" "
      "resistance_known=\"seen\" single_source=\"t\" single_known=\"seen\">";
  for (const OtherWire& wire : wires) {
    text += fmt::format("<conductor size=\"{}\" area_mm2=\"{}\" ohm_per_km=\"{}\" single_mm=\"30\"/>", wire.size,
                        wire.area_mm2, wire.ohm_per_km);
  }
  return text + "</conductors></wires>";
}

}  // namespace loomleaf
