// A conductor's size as the trade writes it: an AWG number or a cross-section in mm2.
#pragma once

#include <optional>
#include <string>

#include "loomleaf/units/quantity.h"

namespace loomleaf {

// Either an AWG number (gauge) or a metric cross-section. Which conductors of that size exist, and what their true
// area and resistance are, the stock knows.
struct WireSize {
  enum class System { awg, metric };
  System system = System::awg;
  int gauge = 0;  // AWG number: 18 for 18 AWG, 0 for 1/0, -1 for 2/0, -2 for 3/0, -3 for 4/0; 0 for metric sizes
  Area area{};    // the nominal cross-section of a metric size; zero for AWG

  static WireSize awg(int gauge) { return {System::awg, gauge, {}}; }
  static WireSize metric(Area area) { return {System::metric, 0, area}; }

  bool operator==(const WireSize&) const = default;
};

// As printed on labels and sheets: "18 AWG", "1/0 AWG", "2.5 mm2".
std::string to_text(const WireSize& size);

// The area that the size's name stands for: ASTM B258 for AWG, d = 0.127 mm x 92^((36-n)/39); metric as named.
Area nominal_area(const WireSize& size);

}  // namespace loomleaf
