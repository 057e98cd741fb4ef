// Puts blocks on pages in reading order.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "loomleaf/layout/geometry.h"

namespace loomleaf {

struct PackItem {
  double width = 0.0, height = 0.0;
  std::size_t first_page = 0;  // not before this one
  int rank = 0;                // lower ones are placed before
  bool follows = false;        // not on a page before that of the item before it
};
struct PackArea {
  Box area;                       // of each page
  std::optional<Box> keep_clear;  // of each page: the title block
  double gap = 3.0;
};
struct PackedAt {
  std::size_t page = 0;
  Point at;  // upper left
};

// Each block goes to the first page that has room for it, to the highest free spot there, the leftmost of these; one that
// fits nowhere opens the next page. A block too large for any page stands alone at the upper left. Blocks of one rank are
// taken in the order given, or the tallest first where that saves a page; what follows another always behind that.
std::vector<PackedAt> pack(const std::vector<PackItem>& items, const PackArea& area);

}  // namespace loomleaf
