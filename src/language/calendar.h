// Dates as a plan writes them.
#pragma once

#include <string_view>

namespace loomleaf {

enum class DateLook { good, no_such_day, other_form };

// Whether this is a day of the Gregorian calendar, written YYYY-MM-DD.
DateLook look_at_date(std::string_view text);

}  // namespace loomleaf
