// Labels laid on their stock.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/sheets/display_list.h"
#include "loomleaf/sheets/label_stock.h"
#include "loomleaf/sheets/sheet_frame.h"
#include "loomleaf/stock/outside_diameter.h"
#include "loomleaf/takeoff/fuse_schedule.h"
#include "loomleaf/takeoff/labels.h"
#include "loomleaf/takeoff/legends.h"

namespace loomleaf {

// What stands on one label, whatever it is for.
struct LabelText {
  struct Part {
    std::string what, text;  // "the fuse", "F1 5 A"
  };
  std::string id;
  std::vector<Part> parts;   // by weight: what does not fit is left out from the last
  std::string end;           // "from" or "to"; empty for a legend
  std::string place;
  std::optional<Outside> outside;
  std::string between = "   ";  // between two parts in one line
  std::size_t together = 2;     // so many of the first parts are not mixed in one line with the others
};

// A wire's label says, by weight: where the far end goes, where this end lands, its fuse, its size. On what goes round
// the wire an arrow points to the far end, so that both ends are put on the same way round.
std::vector<LabelText> texts_of(const std::vector<Label>& labels, const LabelStock& stock);
std::vector<LabelText> texts_of(const std::vector<Legend>& legends);
std::vector<LabelText> texts_of(const std::vector<FuseRow>& fuses);

// So many labels of a size are gone from its first sheet; without a size it is meant for the only one there is.
struct UsedLabels {
  std::string size;
  int count = 0;
};

struct LabelWishes {
  std::string size;             // empty: chosen for each wire by its outside diameter
  Length over_terminal{};       // sleeves: they go on over a crimped terminal so wide
  int copies = 1;
  std::vector<UsedLabels> used;
};

struct LabelSheets {
  std::vector<Page> pages;
  std::vector<std::string> size_of;        // for each text the size that it is printed on; empty: it is not
  std::vector<std::string> counts;         // "12 of size 3.2, on 1 sheet"
  std::vector<std::string> could_not_fit;  // what was shortened, left out or not printed, in words
  std::string trouble;                     // a wish that cannot be met; then there is nothing else
};

// Sorted by size, then row by row in the order given, the whole set once more for each copy; at least one sheet. The size
// is the smallest that goes over the wire, holds on it and takes the ID at the least height; a label for which there is
// none is not printed, and said.
// With two sides a sheet's back follows it, laid for a sheet that is turned over top to bottom.
LabelSheets draw_label_sheets(const std::vector<LabelText>& texts, const LabelStock& stock, const LabelWishes& wishes,
                              const TitleFields& fields, const TextMeasure& type);

}  // namespace loomleaf
