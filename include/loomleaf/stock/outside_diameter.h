// How thick a wire or a cable is on the outside.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

#include "loomleaf/stock/stock.h"

namespace loomleaf {

// `widest` is what has to pass through a bore; `girth` the diameter of the round thing of the same girth, which is less
// for a flat cable.
struct Outside {
  Length widest{}, girth{};
};

// Of a single wire, in the kind of insulation that is named, else as such a wire is usually sold. Absent where the stock
// does not know it.
std::optional<Outside> outside_of_wire(const Stock& stock, const WireSize& size, std::string_view insulation_kind);

// Of a cable of so many such cores. With more than two it is worked out from its two-core kin: circles packed in a
// circle. A two-core cable may be flat, whose girth is then that of a round one of at least 0.83 of its width (UL 1426
// flat cable from 6.4 x 3.9 to 18 x 9.9 mm, makers' catalogues, from memory). Absent where the stock knows no two-core
// cable of the size and the kind.
std::optional<Outside> outside_of_cable(const Stock& stock, const WireSize& size, std::string_view insulation_kind,
                                        std::size_t cores);

}  // namespace loomleaf
