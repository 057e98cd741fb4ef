#include "loomleaf/sheets/diagram_symbols.h"

#include <fmt/format.h>

#include <cctype>
#include <cstring>

#include "../stock/template_file.h"

namespace loomleaf {
namespace {

constexpr Bounds kOnPaper{-200.0, 200.0}, kSize{0.01, 200.0}, kStroke{0.05, 5.0};

// Numbers and command letters of path data and point lists.
class PathText {
 public:
  explicit PathText(std::string text) : text_(std::move(text)) {}

  bool at_end() {
    skip();
    return at_ == text_.size();
  }
  std::optional<char> letter() {
    skip();
    if (at_ == text_.size() || std::isalpha(static_cast<unsigned char>(text_[at_])) == 0) return std::nullopt;
    return text_[at_++];
  }
  std::optional<double> number() {
    skip();
    std::size_t end = at_;
    while (end < text_.size() && std::strchr("+-.0123456789", text_[end]) != nullptr &&
           (end == at_ || (text_[end] != '-' && text_[end] != '+')))
      ++end;
    const auto value = read_number(std::string_view(text_).substr(at_, end - at_));
    if (!value || *value < kOnPaper.least || *value > kOnPaper.most) return std::nullopt;
    at_ = end;
    return value;
  }
  std::optional<Point> point() {
    const auto x = number();
    const auto y = x ? number() : std::nullopt;
    if (!y) return std::nullopt;
    return Point{*x, *y};
  }

 private:
  void skip() {
    while (at_ < text_.size() && (std::isspace(static_cast<unsigned char>(text_[at_])) != 0 || text_[at_] == ','))
      ++at_;
  }
  std::string text_;
  std::size_t at_ = 0;
};

using Kind = PathShape::Segment::Kind;

// The segments of path data; nothing where it is not of our subset.
std::optional<std::vector<PathShape::Segment>> read_path(const std::string& data) {
  PathText text(data);
  std::vector<PathShape::Segment> segments;
  Point at{};
  char command = 0;
  while (!text.at_end()) {
    if (const auto letter = text.letter())
      command = *letter;
    else if (command == 'Z' || command == 0)
      return std::nullopt;
    PathShape::Segment segment;
    switch (command) {
      case 'M':
      case 'L': {
        const auto to = text.point();
        if (!to) return std::nullopt;
        segment = {command == 'M' ? Kind::move : Kind::line, {}, {}, *to};
        if (command == 'M') command = 'L';
        break;
      }
      case 'H':
      case 'V': {
        const auto to = text.number();
        if (!to) return std::nullopt;
        segment = {Kind::line, {}, {}, command == 'H' ? Point{*to, at.y} : Point{at.x, *to}};
        break;
      }
      case 'C': {
        const auto p1 = text.point();
        const auto p2 = p1 ? text.point() : std::nullopt;
        const auto to = p2 ? text.point() : std::nullopt;
        if (!to) return std::nullopt;
        segment = {Kind::curve, *p1, *p2, *to};
        break;
      }
      case 'Z':
        segment = {Kind::close, {}, {}, at};
        break;
      default:
        return std::nullopt;
    }
    if (segments.empty() && segment.kind != Kind::move) return std::nullopt;
    at = segment.to;
    segments.push_back(segment);
  }
  if (segments.empty()) return std::nullopt;
  return segments;
}

class SymbolReader {
 public:
  SymbolReader(const TemplateFolders& folders, const std::string& name)
      : file_(folders.find("symbols", name + ".svg"), "svg") {
    symbol_.name = name;
  }

  Loaded<Symbol> read(const std::vector<std::string>& ports) {
    if (const pugi::xml_node root = file_.root()) {
      file_.only_attributes(root, {"xmlns", "format", "viewBox", "fill", "stroke", "stroke-width"});
      read_box(root);
      stroke_ = file_.has(root, "stroke-width") ? file_.number(root, "stroke-width", kStroke).value_or(0.35) : 0.35;
      for (const pugi::xml_node node : file_.children(root, {"title", "line", "rect", "circle", "polyline", "path"}))
        read_part(node);
      for (const std::string& port : ports)
        if (symbol_.ports.count(port) == 0)
          file_.complain(root,
                         fmt::format("there is no port `{0}`: write <circle class=\"port\" id=\"{0}\" cx=.. cy=.. "
                                     "r=\"0.4\"/> where its line ends",
                                     port));
    }
    return {std::move(symbol_), file_.take_errors()};
  }

 private:
  void read_box(pugi::xml_node root) {
    PathText text(root.attribute("viewBox").value());
    const auto corner = text.point();
    const auto size = corner ? text.point() : std::nullopt;
    if (!size || size->x <= 0.0 || size->y <= 0.0 || !text.at_end()) {
      file_.complain(root, "viewBox should hold four numbers: left, top, width and height in mm");
      return;
    }
    symbol_.box = {corner->x, corner->y, size->x, size->y};
  }

  double coordinate(pugi::xml_node node, const char* name) { return file_.number(node, name, kOnPaper).value_or(0.0); }

  void read_part(pugi::xml_node node) {
    const std::string element = node.name(), kind = node.attribute("class").value();
    if (element == "title") {
      symbol_.title = node.text().get();
      return;
    }
    if (element == "circle" && kind == "port") {
      file_.only_attributes(node, {"class", "id", "cx", "cy", "r"});
      const auto id = file_.text(node, "id");
      if (id) symbol_.ports[*id] = {coordinate(node, "cx"), coordinate(node, "cy")};
      return;
    }
    if (!kind.empty() && kind != "way" && !(kind == "blade" && element == "line")) {
      file_.complain(node, fmt::format("class=\"{}\" is not known here; it may be port, way or blade", kind));
      return;
    }
    SymbolPart part;
    part.kind = kind == "way"     ? SymbolPart::Kind::way
                : kind == "blade" ? SymbolPart::Kind::blade
                                  : SymbolPart::Kind::plain;
    if (element == "circle") {
      file_.only_attributes(node, {"class", "cx", "cy", "r", "fill", "stroke", "stroke-width"});
      CircleShape circle{{coordinate(node, "cx"), coordinate(node, "cy")},
                         file_.number(node, "r", kSize).value_or(1.0),
                         stroke(node),
                         fill(node)};
      part.shape = circle;
    } else {
      PathShape path;
      path.segments = segments(node, element);
      path.stroke = stroke(node);
      path.fill = fill(node);
      part.shape = path;
    }
    symbol_.parts.push_back(std::move(part));
  }

  std::vector<PathShape::Segment> segments(pugi::xml_node node, const std::string& element) {
    if (element == "line") {
      file_.only_attributes(node, {"class", "x1", "y1", "x2", "y2", "stroke-width"});
      return {{Kind::move, {}, {}, {coordinate(node, "x1"), coordinate(node, "y1")}},
              {Kind::line, {}, {}, {coordinate(node, "x2"), coordinate(node, "y2")}}};
    }
    if (element == "rect") {
      file_.only_attributes(node, {"class", "x", "y", "width", "height", "fill", "stroke", "stroke-width"});
      const Box box{coordinate(node, "x"), coordinate(node, "y"), file_.number(node, "width", kSize).value_or(1.0),
                    file_.number(node, "height", kSize).value_or(1.0)};
      return rectangle(box, std::nullopt).segments;
    }
    const char* attribute = element == "path" ? "d" : "points";
    file_.only_attributes(node, {"class", attribute, "fill", "stroke", "stroke-width"});
    const auto text = file_.text(node, attribute);
    if (!text) return {};
    const auto read = read_path(element == "path" ? *text : "M " + *text);
    if (!read)
      file_.complain(
          node, fmt::format("{} should be made of M, L, H, V, C and Z with absolute numbers within 200 mm", attribute));
    return read.value_or(std::vector<PathShape::Segment>{});
  }

  std::optional<Stroke> stroke(pugi::xml_node node) {
    if (std::string_view(node.attribute("stroke").value()) == "none") return std::nullopt;
    const double width =
        file_.has(node, "stroke-width") ? file_.number(node, "stroke-width", kStroke).value_or(stroke_) : stroke_;
    return Stroke{width, {}, {}, false};
  }

  std::optional<Paint> fill(pugi::xml_node node) {
    const std::string_view text = node.attribute("fill").value();
    if (text == "black") return Paint{};
    if (text == "white") return Paint{1.0, 1.0, 1.0};
    if (!text.empty() && text != "none") file_.complain(node, "fill should be black, white or none");
    return std::nullopt;
  }

  TemplateFile file_;
  Symbol symbol_;
  double stroke_ = 0.35;
};

}  // namespace

Loaded<Symbol> load_symbol(const TemplateFolders& folders, const std::string& name,
                           const std::vector<std::string>& ports) {
  return SymbolReader(folders, name).read(ports);
}

}  // namespace loomleaf
