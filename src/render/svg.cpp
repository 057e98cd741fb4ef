#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>
#include <pugixml.hpp>
#include <set>
#include <sstream>

#include "loomleaf/render/render.h"
#include "loomleaf/type/drawable_text.h"
#include "paint_page.h"

namespace loomleaf {
namespace {

constexpr double kMmPerPt = 25.4 / 72.0;

// Microns are fine enough; no trailing zeros, no "-0".
std::string mm(double value) {
  std::string text = fmt::format("{:.3f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string colour(const Paint& paint) {
  const auto byte = [](double share) { return static_cast<int>(std::lround(std::clamp(share, 0.0, 1.0) * 255.0)); };
  return fmt::format("#{:02x}{:02x}{:02x}", byte(paint.r), byte(paint.g), byte(paint.b));
}

std::string path_data(const PathShape& shape) {
  std::string d;
  for (const PathShape::Segment& s : shape.segments) {
    using Kind = PathShape::Segment::Kind;
    const std::string to = mm(s.to.x) + " " + mm(s.to.y);
    switch (s.kind) {
      case Kind::move:
        d += "M" + to;
        break;
      case Kind::line:
        d += "L" + to;
        break;
      case Kind::curve:
        d += fmt::format("C{} {} {} {} {}", mm(s.p1.x), mm(s.p1.y), mm(s.p2.x), mm(s.p2.y), to);
        break;
      case Kind::close:
        d += "Z";
        break;
    }
  }
  return d;
}

class SvgWriter {
 public:
  SvgWriter(pugi::xml_node root, const Page& page, const Drawing& drawing, const TextMeasure& type)
      : at_(root), root_(root), page_(page), type_(type) {
    for (const Page& other : drawing.pages)
      for (const DrawingItem& item : other.items)
        if (const auto* destination = std::get_if<Destination>(&item)) pages_of_.emplace(destination->name, other.name);
  }

  void operator()(const PathShape& shape) {
    pugi::xml_node path = at_.append_child("path");
    set(path, "d", path_data(shape));
    set_ink(path, shape.fill, shape.stroke);
  }

  void operator()(const CircleShape& circle) {
    pugi::xml_node node = at_.append_child("circle");
    set(node, "cx", mm(circle.centre.x));
    set(node, "cy", mm(circle.centre.y));
    set(node, "r", mm(circle.radius_mm));
    set_ink(node, circle.fill, circle.stroke);
  }

  void operator()(const TextRun& run) {
    const std::string text = drawable(run.text);
    if (text.empty() || run.style.cap_mm <= 0.0) return;
    const double width = type_.width(text, run.style);
    const double left = run.at.x - anchor_shift(run, width);
    const std::string turn = run.turn_degrees == 0.0
                                 ? ""
                                 : fmt::format("rotate({} {} {})", mm(run.turn_degrees), mm(run.at.x), mm(run.at.y));
    pugi::xml_node node = at_.append_child("text");
    set(node, "x", mm(left));
    set(node, "y", mm(run.at.y));
    set(node, "font-size", mm(type_.font_size_pt(run.style) * kMmPerPt));
    if (run.style.bold) set(node, "font-weight", "bold");
    set(node, "fill", colour(run.paint));
    // Keeps the room that was planned for it where a viewer lacks our fonts.
    set(node, "textLength", mm(width));
    set(node, "lengthAdjust", "spacingAndGlyphs");
    if (!turn.empty()) set(node, "transform", turn);
    node.text().set(text.c_str());
    if (!run.underlined) return;
    pugi::xml_node rule = at_.append_child("rect");
    set(rule, "x", mm(left));
    set(rule, "y", mm(run.at.y + underline_drop(run.style)));
    set(rule, "width", mm(width));
    set(rule, "height", mm(underline_thickness(run.style)));
    set(rule, "fill", colour(run.paint));
    if (!turn.empty()) set(rule, "transform", turn);
  }

  void operator()(const GroupBegin& group) {
    at_ = at_.append_child("g");
    if (!group.id.empty()) set(at_, "id", unused_id(group.id));
    if (!group.title.empty()) at_.append_child("title").text().set(drawable(group.title).c_str());
  }

  void operator()(const GroupEnd&) {
    if (at_ != root_) at_ = at_.parent();
  }

  void operator()(const LinkArea& link) {
    const auto page = pages_of_.find(link.destination);
    if (page == pages_of_.end()) return;
    pugi::xml_node anchor = at_.append_child("a");
    set(anchor, "href",
        (page->second == page_.name ? "" : page->second + ".svg") + "#" + destination_id(link.destination));
    pugi::xml_node area = anchor.append_child("rect");
    set(area, "x", mm(link.box.x));
    set(area, "y", mm(link.box.y));
    set(area, "width", mm(link.box.w));
    set(area, "height", mm(link.box.h));
    set(area, "fill", "none");
    set(area, "pointer-events", "all");
  }

  void operator()(const Destination& destination) {
    set(at_.append_child("g"), "id", unused_id(destination_id(destination.name)));
  }

 private:
  static void set(pugi::xml_node node, const char* name, const std::string& value) {
    node.append_attribute(name).set_value(value.c_str());
  }

  static void set_ink(pugi::xml_node node, const std::optional<Paint>& fill, const std::optional<Stroke>& stroke) {
    set(node, "fill", fill ? colour(*fill) : "none");
    if (!stroke) return;
    set(node, "stroke", colour(stroke->paint));
    set(node, "stroke-width", mm(stroke->width_mm));
    if (!stroke->dash_mm.empty()) {
      std::string dashes;
      for (const double dash : stroke->dash_mm) dashes += (dashes.empty() ? "" : " ") + mm(dash);
      set(node, "stroke-dasharray", dashes);
    }
    if (stroke->round) {
      set(node, "stroke-linecap", "round");
      set(node, "stroke-linejoin", "round");
    }
  }

  // Apart from the IDs of items, which may bear the same name.
  static std::string destination_id(const std::string& name) { return "to-" + name; }

  // An XML name that no element has yet: what an ID of a plan cannot hold becomes "_", a repeated one gets a number.
  std::string unused_id(const std::string& wanted) {
    std::string id = wanted;
    for (char& c : id)
      if (!(std::isalnum(static_cast<unsigned char>(c)) || c == '-' || c == '_' || c == '.')) c = '_';
    if (!std::isalpha(static_cast<unsigned char>(id.front()))) id.insert(0, "_");
    std::string unused = id;
    while (!ids_.insert(unused).second) unused = id + "-" + std::to_string(++repeats_[id] + 1);
    return unused;
  }

  pugi::xml_node at_, root_;
  const Page& page_;
  const TextMeasure& type_;
  std::map<std::string, std::string> pages_of_;  // by destination
  std::set<std::string> ids_;
  std::map<std::string, int> repeats_;
};

}  // namespace

std::string to_svg(const Page& page, const Drawing& drawing, const TextMeasure& type) {
  pugi::xml_document document;
  pugi::xml_node svg = document.append_child("svg");
  svg.append_attribute("xmlns") = "http://www.w3.org/2000/svg";
  svg.append_attribute("width") = (mm(page.width_mm) + "mm").c_str();
  svg.append_attribute("height") = (mm(page.height_mm) + "mm").c_str();
  svg.append_attribute("viewBox") = ("0 0 " + mm(page.width_mm) + " " + mm(page.height_mm)).c_str();
  svg.append_attribute("font-family") = (std::string(kFamilies) + ", sans-serif").c_str();
  if (!drawing.title.empty()) svg.append_child("title").text().set(drawable(drawing.title).c_str());
  pugi::xml_node paper = svg.append_child("rect");
  paper.append_attribute("width") = "100%";
  paper.append_attribute("height") = "100%";
  paper.append_attribute("fill") = "#ffffff";
  SvgWriter writer(svg, page, drawing, type);
  for (const DrawingItem& item : page.items) std::visit(writer, item);
  std::ostringstream out;
  document.save(out, " ", pugi::format_indent, pugi::encoding_utf8);
  return out.str();
}

}  // namespace loomleaf
