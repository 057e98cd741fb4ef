#include "drawn.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "loomleaf/render/render.h"
#include "loomleaf/units/format.h"

namespace loomleaf::test {
namespace {

constexpr double kTouch = 0.02;  // mm that boxes may share at their edges

TemplateFolders folders() { return {{std::filesystem::path(LOOMLEAF_ROOT) / "templates"}}; }

bool hit(Box a, const Box& b) {
  a.x += kTouch;
  a.y += kTouch;
  a.w -= 2.0 * kTouch;
  a.h -= 2.0 * kTouch;
  return a.overlaps(b);
}

// A stretch of a wire as wide as it is drawn.
Box stretch(Point a, Point b, double width) {
  const double half = width / 2.0;
  return {std::min(a.x, b.x) - half, std::min(a.y, b.y) - half, std::fabs(a.x - b.x) + 2.0 * half,
          std::fabs(a.y - b.y) + 2.0 * half};
}

bool touches(const Box& box, Point p) {
  return p.x >= box.x - 0.3 && p.x <= box.right() + 0.3 && p.y >= box.y - 0.3 && p.y <= box.bottom() + 0.3;
}

// Whatever takes room, from the top down.
struct Taken {
  Box box;
  std::string what;
  bool is_wire = false, is_text = false;
};

std::vector<Taken> taken_on(const PlacedSheet& sheet) {
  std::vector<Taken> all;
  for (const PlacedText& text : sheet.texts) all.push_back({text.box, "text " + text.text, false, true});
  for (const PlacedItem& item : sheet.items) all.push_back({item.box, "item " + item.id, false, false});
  for (const PlacedWire& wire : sheet.wires)
    for (std::size_t k = 1; k < wire.points.size(); ++k)
      all.push_back({stretch(wire.points[k - 1], wire.points[k], wire.width_mm), "wire " + wire.id, true, false});
  std::sort(all.begin(), all.end(), [](const Taken& a, const Taken& b) { return a.box.y < b.box.y; });
  return all;
}

void find_overlaps(const PlacedSheet& sheet, std::vector<std::string>& faults) {
  const std::vector<Taken> all = taken_on(sheet);
  for (std::size_t i = 0; i < all.size(); ++i)
    for (std::size_t j = i + 1; j < all.size() && all[j].box.y < all[i].box.bottom(); ++j) {
      const Taken &a = all[i], &b = all[j];
      const bool may_meet = (a.is_wire && b.is_wire) || (a.is_wire && !b.is_text) || (b.is_wire && !a.is_text);
      if (!may_meet && hit(a.box, b.box)) faults.push_back(a.what + " on " + b.what);
    }
}

void find_strays(const PlacedSheet& sheet, std::vector<std::string>& faults) {
  const Box inside{10.0, 10.0, sheet.width_mm - 20.0, sheet.height_mm - 20.0};
  const auto is_out = [&](const Box& b) {
    return b.x < inside.x || b.y < inside.y || b.right() > inside.right() || b.bottom() > inside.bottom();
  };
  for (const PlacedText& text : sheet.texts)
    if (is_out(text.box)) faults.push_back("text outside the margins: " + text.text);
  for (const PlacedItem& item : sheet.items)
    if (is_out(item.box)) faults.push_back("item outside the margins: " + item.id);
  for (const PlacedWire& wire : sheet.wires)
    for (const Point& p : wire.points)
      if (is_out({p.x, p.y, 0.0, 0.0})) faults.push_back("wire outside the margins: " + wire.id);
}

// The wire whose level stretch is next below a text; how far down it is.
struct NextBelow {
  std::string id;
  double down = 1e9;
};
NextBelow wire_below(const PlacedSheet& sheet, const Box& text) {
  NextBelow next;
  for (const PlacedWire& wire : sheet.wires)
    for (std::size_t k = 1; k < wire.points.size(); ++k) {
      const Point a = wire.points[k - 1], b = wire.points[k];
      const double down = a.y - text.bottom();
      const bool is_under = std::min(a.x, b.x) <= text.x + kTouch && std::max(a.x, b.x) >= text.right() - kTouch;
      if (a.y == b.y && is_under && down > -kTouch && down < next.down) next = {wire.id, down};
    }
  return next;
}

// Each wire carries its name, or, tied to the core that does, its own colour; and no text of a wire stands on another.
void find_lost_tags(const Drawn& drawn, std::vector<std::string>& faults) {
  constexpr double row = 4.5;  // from a tag's upper row to its wire, at most
  const Plan& plan = drawn.seen().plan;
  std::map<std::string, std::string> run_of;
  for (const Conductor& conductor : plan.conductors) run_of[conductor.id] = plan.runs[conductor.run].id;
  std::map<std::string, int> tagged;  // wires
  std::set<std::string> named;        // runs
  for (const PlacedSheet& sheet : drawn.sheets.placement) {
    std::set<std::string> here;
    for (const PlacedWire& wire : sheet.wires) here.insert(wire.id);
    for (const PlacedText& text : sheet.texts) {
      const auto run = run_of.find(text.of);
      if (run == run_of.end() || here.count(text.of) == 0) continue;
      const NextBelow next = wire_below(sheet, text.box);
      if (next.id != text.of || next.down > row)
        faults.push_back(fmt::format("text {} of wire {} stands on {}", text.text, text.of, next.id));
      ++tagged[text.of];
      if (text.text == run->second && text.cap_mm >= 2.5) named.insert(run->second);
    }
  }
  for (const auto& [id, run] : run_of) {
    if (tagged[id] == 0) faults.push_back(fmt::format("wire {} has no tag", id));
    if (named.count(run) == 0) faults.push_back(fmt::format("{} is not named in 2.5 mm", run));
  }
}

// Every conductor once, from an item that it joins to the other.
void find_missing(const Drawn& drawn, std::vector<std::string>& faults) {
  const Plan& plan = drawn.seen().plan;
  std::map<std::string, int> times;
  std::map<std::string, std::set<std::string>> named;
  std::map<std::string, const Conductor*> by_id;
  for (const Conductor& conductor : plan.conductors) by_id[conductor.id] = &conductor;
  for (const PlacedSheet& sheet : drawn.sheets.placement) {
    for (const PlacedText& text : sheet.texts)
      if (text.cap_mm >= 2.5) named[text.of].insert(text.text);
    for (const PlacedWire& wire : sheet.wires) {
      ++times[wire.id];
      const Conductor* conductor = by_id.at(wire.id);
      const std::string from = plan.items[plan.terminals[conductor->from].item].id,
                        to = plan.items[plan.terminals[conductor->to].item].id;
      const auto ends_at = [&](Point p, const std::string& id) {
        return std::any_of(sheet.items.begin(), sheet.items.end(),
                           [&](const PlacedItem& item) { return item.id == id && touches(item.box, p); });
      };
      const Point a = wire.points.front(), b = wire.points.back();
      if (!(ends_at(a, from) && ends_at(b, to)) && !(ends_at(a, to) && ends_at(b, from)))
        faults.push_back(fmt::format("wire {} does not end at {} and {}", wire.id, from, to));
    }
  }
  for (const auto& [id, conductor] : by_id) {
    if (times[id] != 1) faults.push_back(fmt::format("wire {} is drawn {} times", id, times[id]));
  }
  std::set<std::string> items;
  for (const PlacedSheet& sheet : drawn.sheets.placement)
    for (const PlacedItem& item : sheet.items) items.insert(item.id);
  for (const Item& item : plan.items) {
    if (items.count(item.id) == 0) faults.push_back("item not drawn: " + item.id);
    const auto& texts = named[item.id];
    if (std::none_of(texts.begin(), texts.end(), [&](const std::string& text) { return text.rfind(item.id, 0) == 0; }))
      faults.push_back("item without its ID in 2.5 mm: " + item.id);
    const Device* device = item.as<Device>();
    const std::string rating = device && device->rating ? to_text(*device->rating) : "";
    if (std::none_of(texts.begin(), texts.end(), [&](const std::string& t) { return t.find(rating) != t.npos; }))
      faults.push_back("device without its rating in 2.5 mm: " + item.id);
  }
}

}  // namespace

const TextMeasure& type() {
  static const TextMeasure measure(std::string(LOOMLEAF_ROOT) + "/fonts");
  return measure;
}

Examination examine_text(const std::string& text) {
  const SourceText source("plan.loom", text);
  Examination seen = examine(source, folders());
  EXPECT_TRUE(seen.template_errors.empty());
  for (const Complaint& complaint : seen.complaints) ADD_FAILURE() << to_text(complaint, source);
  return seen;
}

Drawn draw(std::shared_ptr<const Examination> seen, const std::string& paper, Orientation orientation) {
  const Loaded<SheetFormat> format = load_sheet_format(folders(), paper, orientation);
  EXPECT_TRUE(format.errors.empty());
  TitleFields fields;
  fields.title = seen->plan.heading.title;
  fields.sheet_name = "Wiring diagram";
  DiagramSheets sheets = draw_diagram(seen->plan, seen->routes, seen->circuit, seen->study, seen->stock, folders(),
                                      format.value, fields, type());
  for (const TemplateError& error : sheets.template_errors) ADD_FAILURE() << error.file << ": " << error.message;
  return {std::move(seen), std::move(sheets), format.value};
}

Drawn draw(const std::string& text, const std::string& paper, Orientation orientation) {
  return draw(std::make_shared<const Examination>(examine_text(text)), paper, orientation);
}

std::string pdf_of(const Drawn& drawn) {
  Drawing drawing;
  drawing.pages = drawn.sheets.pages;
  drawing.outline = drawn.sheets.outline;
  return to_pdf(drawing, type());
}

std::vector<std::string> faults(const Drawn& drawn) {
  std::vector<std::string> faults;
  for (const PlacedSheet& sheet : drawn.sheets.placement) {
    find_overlaps(sheet, faults);
    find_strays(sheet, faults);
    for (const PlacedText& text : sheet.texts)
      if (text.cap_mm < 1.8) faults.push_back("text under 1.8 mm: " + text.text);
  }
  find_missing(drawn, faults);
  find_lost_tags(drawn, faults);
  return faults;
}

std::vector<std::string> example_files() {
  std::vector<std::string> files;
  for (const auto& entry :
       std::filesystem::recursive_directory_iterator(std::filesystem::path(LOOMLEAF_ROOT) / "examples"))
    if (entry.path().extension() == ".loom") files.push_back(entry.path().string());
  std::sort(files.begin(), files.end());
  return files;
}

std::string read_text(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

}  // namespace loomleaf::test
