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

// The longest time that it may stay closed at this current: the upper limit of its gates, log-log between them; beyond the
// last one with the same I2t.
struct Opening {
  std::optional<Duration> no_later;  // absent: it may never open
  // Whether the gates say so. Not where there are none, nor far beyond gates that end before `counts_beyond` times the
  // rating: there a device opens much sooner than with the I2t of a slow overload, and `no_later` is a bound alone.
  bool is_published = false;
};
inline constexpr double counts_beyond = 5.0;
Opening opens_no_later(const FuseFamily& family, Current rating, Current current);

}  // namespace loomleaf
