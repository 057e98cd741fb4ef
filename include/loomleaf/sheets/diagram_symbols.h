// The symbols of the wiring diagram, from templates/symbols/*.svg.
//
// A symbol file is an SVG of a small subset: `svg` with format="1" and a viewBox, a `title` with the symbol's name in
// words, and `line`, `rect`, `circle`, `polyline` and `path` (M L H V C Z, absolute) with fill and stroke-width. One
// unit is 1 mm; y = 0 is the rail of its first port. A circle of class "port" is not drawn: its id names the port and
// its centre says where the line ends. What is of class "way" is drawn again for each further rail, and a line of class
// "blade" points at the way the contact is drawn in.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "loomleaf/sheets/display_list.h"
#include "loomleaf/stock/stock.h"

namespace loomleaf {

// The distance between two rails in a symbol, mm.
inline constexpr double kRailPitch = 10.0;

struct SymbolPart {
  enum class Kind { plain, way, blade } kind = Kind::plain;
  std::variant<PathShape, CircleShape> shape;
};

struct Symbol {
  std::string name, title;
  Box box;  // the viewBox
  std::vector<SymbolPart> parts;
  std::map<std::string, Point> ports;
};

// Reads symbols/NAME.svg; `ports` must be there.
Loaded<Symbol> load_symbol(const TemplateFolders& folders, const std::string& name,
                           const std::vector<std::string>& ports);

}  // namespace loomleaf
