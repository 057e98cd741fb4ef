// Quantities as value types.
//
// A quantity is made by naming its unit and left by naming a unit again:
//
//     const Voltage u = volts(12.8);
//     const Resistance r = u / amperes(4.0);
//     fmt::print("{} mohm", r.in(milliohms));
//
// A bare number never turns into a quantity, and quantities of unlike kind do not mix.
#pragma once

#include <cmath>
#include <compare>

namespace loomleaf {

template <class Kind>
class Quantity;

// A unit of one kind of quantity: a value in this unit times `times` / `over` is the value in the kind's base unit.
// Two whole factors instead of one keep decimal input exact: 150 mm is 150 / 1000, not 150 * 0.001.
template <class Kind>
struct Unit {
  double times = 1.0;
  double over = 1.0;
  constexpr Quantity<Kind> operator()(double value) const;
};

template <class Kind>
class Quantity {
 public:
  constexpr Quantity() = default;

  // The value in the named unit.
  constexpr double in(Unit<Kind> unit) const { return base_ * unit.over / unit.times; }

  constexpr auto operator<=>(const Quantity&) const = default;

  constexpr Quantity operator-() const { return Quantity(-base_); }
  constexpr Quantity& operator+=(Quantity other) { base_ += other.base_; return *this; }
  constexpr Quantity& operator-=(Quantity other) { base_ -= other.base_; return *this; }
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.base_ + b.base_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.base_ - b.base_); }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.base_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(a.base_ * k); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.base_ / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.base_ / b.base_; }
  friend Quantity abs(Quantity a) { return Quantity(std::fabs(a.base_)); }
  friend bool is_finite(Quantity a) { return std::isfinite(a.base_); }

 private:
  friend struct Unit<Kind>;
  constexpr explicit Quantity(double base) : base_(base) {}
  double base_ = 0.0;
};

template <class Kind>
constexpr Quantity<Kind> Unit<Kind>::operator()(double value) const {
  return Quantity<Kind>(value * times / over);
}

using Voltage = Quantity<struct VoltageKind>;
using Current = Quantity<struct CurrentKind>;
using Resistance = Quantity<struct ResistanceKind>;
using Power = Quantity<struct PowerKind>;
using Length = Quantity<struct LengthKind>;
using Area = Quantity<struct AreaKind>;
using Temperature = Quantity<struct TemperatureKind>;  // degrees Celsius; differences are in kelvin
using Duration = Quantity<struct DurationKind>;
using Charge = Quantity<struct ChargeKind>;
using Energy = Quantity<struct EnergyKind>;

inline constexpr Unit<VoltageKind> volts{}, millivolts{1, 1000};
inline constexpr Unit<CurrentKind> amperes{}, milliamperes{1, 1000}, kiloamperes{1000, 1};
inline constexpr Unit<ResistanceKind> ohms{}, milliohms{1, 1000};
inline constexpr Unit<PowerKind> watts{}, kilowatts{1000, 1};
inline constexpr Unit<LengthKind> metres{}, millimetres{1, 1000}, centimetres{1, 100}, feet{3048, 10000}, inches{254, 10000};
inline constexpr Unit<AreaKind> square_millimetres{};
inline constexpr Unit<TemperatureKind> celsius{};
inline constexpr Unit<DurationKind> seconds{}, milliseconds{1, 1000}, hours{3600, 1};
inline constexpr Unit<ChargeKind> ampere_hours{};
inline constexpr Unit<EnergyKind> watt_hours{};

// The few products the trade needs.
constexpr Voltage operator*(Current i, Resistance r) { return volts(i.in(amperes) * r.in(ohms)); }
constexpr Voltage operator*(Resistance r, Current i) { return i * r; }
constexpr Resistance operator/(Voltage u, Current i) { return ohms(u.in(volts) / i.in(amperes)); }
constexpr Current operator/(Voltage u, Resistance r) { return amperes(u.in(volts) / r.in(ohms)); }
constexpr Power operator*(Voltage u, Current i) { return watts(u.in(volts) * i.in(amperes)); }
constexpr Current operator/(Power p, Voltage u) { return amperes(p.in(watts) / u.in(volts)); }

}  // namespace loomleaf
