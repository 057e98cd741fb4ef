// A conductor's size as the trade writes it: an AWG number, a cross-section in mm2, or the number of a vehicle wire.
#pragma once

#include <optional>
#include <string>

#include "loomleaf/units/quantity.h"

namespace loomleaf {

// An AWG number (gauge), a metric cross-section, or the number of a vehicle wire after SAE J1127 and J1128, which has 3 to
// 11 % less copper than AWG of the same number. Which conductors of that size exist, and what their true area and
// resistance are, the stock knows.
struct WireSize {
  enum class System { awg, metric, sae };
  System system = System::awg;
  int gauge = 0;  // number: 18 for 18 AWG or 18 SAE, 0 for 1/0, -1 for 2/0, -2 for 3/0, -3 for 4/0; 0 for metric sizes
  Area area{};    // the nominal cross-section of a metric size; zero for the others

  static WireSize awg(int gauge) { return {System::awg, gauge, {}}; }
  static WireSize metric(Area area) { return {System::metric, 0, area}; }
  static WireSize sae(int gauge) { return {System::sae, gauge, {}}; }

  bool operator==(const WireSize&) const = default;
};

// As printed on labels and sheets: "18 AWG", "1/0 AWG", "2.5 mm2", "14 SAE".
std::string to_text(const WireSize& size);

// The area that the size's name stands for: ASTM B258 for AWG, d = 0.127 mm x 92^((36-n)/39); metric as named; of vehicle
// wire the least area that SAE J1127 and J1128 let it have.
Area nominal_area(const WireSize& size);

}  // namespace loomleaf
