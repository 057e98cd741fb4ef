#include "loomleaf/language/dump.h"

#include <fmt/format.h>

#include <array>

#include "loomleaf/units/format.h"

namespace loomleaf {
namespace {

// In the order of the enum.
constexpr auto kind_names = std::to_array<std::string_view>({
    "language",
    "revision",
    "date",
    "by",
    "voltages",
    "rules",
    "conductor_temperature",
    "cover",
    "removable",
    "ambient",
    "sheathed",
    "conduit",
    "bundle",
    "slack",
    "length",
    "plus",
    "size",
    "core_count",
    "cores",
    "colour",
    "insulation",
    "insulation_kind",
    "via",
    "bond",
    "signal",
    "kind",
    "voltage",
    "low_voltage",
    "high_voltage",
    "min_voltage",
    "max_voltage",
    "in_voltage",
    "out_voltage",
    "charge",
    "max_current",
    "limit_current",
    "short_circuit",
    "internal_resistance",
    "yield",
    "rating",
    "pole_rating",
    "family",
    "breaks",
    "ways",
    "poles",
    "both",
    "drawn",
    "resistance",
    "contact_rating",
    "coil_power",
    "coil_resistance",
    "efficiency",
    "isolated",
    "takes",
    "power",
    "current",
    "surge",
    "continuous",
    "use_hours",
    "use_share",
    "drop",
    "tails",
    "at",
    "on",
    "also",
    "hole",
    "cut_out",
    "later",
    "note",
    "part",
});
static_assert(kind_names.size() == static_cast<std::size_t>(PropertyKind::part) + 1);

std::string text(const Name& name) { return name.id; }
std::string text(const TerminalName& name) {
  const bool sign = name.terminal == "+" || name.terminal == "-";
  return name.item + (name.terminal.empty() || sign ? "" : ".") + name.terminal;
}
std::string text(const Position& position) {
  std::string out = position.place.id;
  if (position.offset) out += " " + to_text(*position.offset);
  if (position.every) out += " every " + to_text(*position.every);
  return out;
}

template <class T>
std::string list(const std::vector<T>& values) {
  std::string out;
  for (const T& value : values) {
    if (!out.empty()) out += ",";
    if constexpr (requires { text(value); })
      out += text(value);
    else
      out += to_text(value);
  }
  return out;
}

struct ValueText {
  std::string operator()(std::monostate) const { return {}; }
  std::string operator()(int value) const { return std::to_string(value); }
  std::string operator()(double value) const { return shortest(value); }
  std::string operator()(const std::string& value) const { return '"' + value + '"'; }
  std::string operator()(const Word& value) const { return value.text; }
  std::string operator()(Auto) const { return "auto"; }
  std::string operator()(Charge value) const { return shortest(value.in(ampere_hours)) + " Ah"; }
  std::string operator()(Energy value) const { return shortest(value.in(watt_hours)) + " Wh"; }
  std::string operator()(const Name& value) const { return text(value); }
  std::string operator()(const TerminalName& value) const { return text(value); }
  std::string operator()(const Position& value) const { return text(value); }
  std::string operator()(PoleRating value) const { return fmt::format("{}:{}", value.pole, to_text(value.rating)); }
  std::string operator()(Drawn value) const { return value.open ? "open" : fmt::format("way {}", value.way); }
  std::string operator()(const SizeRange& value) const { return to_text(value.least) + ".." + to_text(value.most); }
  std::string operator()(Surge value) const { return shortest(value.times) + "x " + to_text(value.lasting); }
  std::string operator()(const TailLeads& value) const { return to_text(value.size) + " " + to_text(value.length); }
  std::string operator()(Rectangle value) const { return to_text(value.width) + " x " + to_text(value.height); }
  template <class T>
  std::string operator()(const std::vector<T>& values) const {
    return list(values);
  }
  template <class T>
  std::string operator()(const T& value) const {
    return to_text(value);
  }
};

}  // namespace

std::string_view name_of(PropertyKind kind) { return kind_names[static_cast<std::size_t>(kind)]; }

std::string to_text(const Statement& statement) {
  std::string out(name_of(statement.keyword));
  if (!statement.ids.empty()) out += ' ' + list(statement.ids);
  for (std::size_t k = 0; k < statement.leg_ends.size(); ++k)
    out += (k == 0 ? " " : " to ") + text(statement.leg_ends[k]);
  for (std::size_t k = 0; k < statement.ends.size(); ++k)
    out += (k == 0 ? " " : " to ") + list(statement.ends[k].terminals);
  if (!statement.subjects.empty()) out += " of " + list(statement.subjects);
  if (statement.description) out += " \"" + *statement.description + '"';
  for (const Property& property : statement.properties) {
    out += fmt::format(" {}", name_of(property.kind));
    const std::string value = std::visit(ValueText{}, property.value);
    if (!value.empty()) out += '=' + value;
  }
  return out;
}

std::string to_text(const Document& document) {
  std::string out;
  for (const Statement& statement : document.statements) out += to_text(statement) + '\n';
  return out;
}

}  // namespace loomleaf
