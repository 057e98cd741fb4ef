#include "loomleaf/units/format.h"

#include <fmt/format.h>

#include <cmath>

namespace loomleaf {

std::string to_text(double number, int decimals) {
  if (!std::isfinite(number)) return "not known";
  std::string text = fmt::format("{:.{}f}", number, decimals);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string to_text(Voltage u) { return to_text(u.in(volts), 2) + " V"; }

std::string to_text(Current i) {
  const double size = std::fabs(i.in(amperes));
  if (size >= 1000) return to_text(i.in(kiloamperes), 2) + " kA";
  return to_text(i.in(amperes), size < 10 ? 2 : 1) + " A";
}

std::string to_text(Resistance r) {
  const bool small = std::fabs(r.in(ohms)) < 1;
  return small ? to_text(r.in(milliohms), 2) + " mohm" : to_text(r.in(ohms), 2) + " ohm";
}

std::string to_text(Power p) { return to_text(p.in(watts), 1) + " W"; }

std::string to_text(Length l) {
  const bool small = std::fabs(l.in(metres)) < 1;
  return small ? to_text(l.in(millimetres), 1) + " mm" : to_text(l.in(metres), 2) + " m";
}

std::string to_text(Area a) { return to_text(a.in(square_millimetres), 3) + " mm2"; }

std::string to_text(Temperature t) { return to_text(t.in(celsius), 1) + " C"; }

std::string to_text(Duration t) {
  const bool small = std::fabs(t.in(seconds)) < 1;
  return small ? to_text(t.in(milliseconds), 1) + " ms" : to_text(t.in(seconds), 2) + " s";
}

std::string percent_text(double share) { return to_text(share * 100, 1) + " %"; }

std::string shortest(double number) { return fmt::format("{}", number); }

}  // namespace loomleaf
