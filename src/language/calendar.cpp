#include "calendar.h"

#include <chrono>

namespace loomleaf {

DateLook look_at_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return DateLook::other_form;
  const auto number = [&](std::size_t from, std::size_t count) {
    int value = 0;
    for (const char c : text.substr(from, count)) {
      if (c < '0' || c > '9') return -1;
      value = value * 10 + (c - '0');
    }
    return value;
  };
  const int year = number(0, 4), month = number(5, 2), day = number(8, 2);
  if (year < 0 || month < 0 || day < 0) return DateLook::other_form;
  const std::chrono::year_month_day date{std::chrono::year(year), std::chrono::month(static_cast<unsigned>(month)),
                                         std::chrono::day(static_cast<unsigned>(day))};
  return date.ok() && year > 0 ? DateLook::good : DateLook::no_such_day;
}

}  // namespace loomleaf
