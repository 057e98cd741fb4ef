// What a device's published gates say of one current.
#pragma once

#include <optional>

#include "loomleaf/stock/stock.h"

namespace loomleaf {

// The shortest time in which the device may open at this current: the lower limit of its gates, log-log between them;
// beyond the last one with the same I2t. Nothing where it may never open there, which is so up to its rating, or where
// the family has no such gates.
std::optional<Duration> opens_no_sooner(const FuseFamily& family, Current rating, Current current);

// Whether it stays closed through a current of this length. Nothing where the family has no gates to tell.
std::optional<bool> rides_through(const FuseFamily& family, Current rating, Current current, Duration lasting);

}  // namespace loomleaf
