// How figures stand in JSON: null where not known, whole numbers without a point.
#pragma once

#include <cmath>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "loomleaf/units/quantity.h"

namespace loomleaf {

using Json = nlohmann::ordered_json;

inline Json number(double value) {
  if (!std::isfinite(value)) return nullptr;
  // Whole numbers in their shortest form: 8, not 8.0.
  if (value == std::trunc(value) && std::fabs(value) < 1e15) return static_cast<std::int64_t>(value);
  return value;
}

template <class Kind>
Json number(const std::optional<Quantity<Kind>>& value, Unit<Kind> unit) {
  return value ? number(value->in(unit)) : Json(nullptr);
}

inline Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

}  // namespace loomleaf
