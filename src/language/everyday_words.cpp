#include "everyday_words.h"

#include <algorithm>
#include <array>

namespace loomleaf {
namespace {

using K = Keyword;

// An inverter is a load like any other: its AC side is in no plan.
constexpr auto rows = std::to_array<EverydayWord>({
    {"battery", K::source, "source BAT battery"},
    {"charger", K::source, "source CH charger"},
    {"solar", K::source, "source SOL solar"},
    {"panel", K::source, "source SOL solar"},
    {"alternator", K::source, "source ALT alternator"},
    {"inverter", K::load, "load INV"},
    {"lamp", K::load, "load LA1"},
    {"light", K::load, "load LA1"},
    {"led", K::load, "load LA1"},
    {"fan", K::load, "load FAN1 motor"},
    {"pump", K::load, "load P1 motor"},
    {"motor", K::load, "load M1 motor"},
    {"starter", K::load, "load ST1 starter"},
    {"heater", K::load, "load H1 resistive"},
    {"fridge", K::load, "load FR1 motor"},
    {"busbar", K::bus, "bus NB"},
    {"terminal", K::bus, "bus NB"},
    {"joint", K::splice, "splice SP1"},
    {"plug", K::connector, "connector X1"},
    {"socket", K::connector, "connector X1"},
    {"earth", K::chassis, "chassis CH"},
    {"ground", K::chassis, "chassis CH"},
    {"regulator", K::converter, "converter CV1"},
    {"room", K::place, "place WALL"},
    {"route", K::leg, "leg LOCKER to WALL"},
});

}  // namespace

const EverydayWord* find_everyday_word(std::string_view word) {
  const auto* found = std::ranges::find(rows, word, &EverydayWord::word);
  return found == rows.end() ? nullptr : found;
}

}  // namespace loomleaf
