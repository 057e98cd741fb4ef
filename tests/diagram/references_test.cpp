// Cross-references: what each says, where it leads, and the way back.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "diagram/support/drawn.h"
#include "diagram/support/generated_plan.h"

namespace loomleaf::test {
namespace {

using ::testing::IsEmpty;

// "2/C4" or, where there is but one sheet, "C4".
struct Place {
  std::size_t sheet = 0;
  std::string zone;
};
Place read_place(const std::string& text) {
  const std::size_t slash = text.find('/');
  if (slash == std::string::npos) return {0, text};
  return {std::stoul(text.substr(0, slash)) - 1, text.substr(slash + 1)};
}

// Every spot of an item or wire, two a millimetre.
std::vector<Point> spots_of(const PlacedSheet& sheet, const std::string& id) {
  std::vector<Point> spots;
  const auto add = [&](Point a, Point b) {
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    for (double at = 0.0; at <= length; at += 0.5) {
      const double share = length > 0.0 ? at / length : 0.0;
      spots.push_back({a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)});
    }
  };
  for (const PlacedItem& item : sheet.items)
    for (double y = item.box.y; item.id == id && y <= item.box.bottom(); y += 0.5)
      add({item.box.x, y}, {item.box.right(), y});
  for (const PlacedWire& wire : sheet.wires)
    for (std::size_t i = 1; wire.id == id && i < wire.points.size(); ++i) add(wire.points[i - 1], wire.points[i]);
  return spots;
}

std::vector<const PlacedText*> references_on(const PlacedSheet& sheet) {
  std::vector<const PlacedText*> references;
  for (const PlacedText& text : sheet.texts)
    if (!text.leads_to.empty()) references.push_back(&text);
  return references;
}

// References whose partner does not stand where they say.
std::vector<std::string> lost_references(const Drawn& drawn) {
  std::vector<std::string> lost;
  for (const PlacedSheet& sheet : drawn.sheets.placement)
    for (const PlacedText* reference : references_on(sheet)) {
      const Place place = read_place(reference->text);
      const bool is_there = place.sheet < drawn.sheets.placement.size() && [&] {
        const auto spots = spots_of(drawn.sheets.placement[place.sheet], reference->leads_to);
        return std::any_of(spots.begin(), spots.end(),
                           [&](Point spot) { return drawn.format.zone(spot) == place.zone; });
      }();
      if (!is_there) lost.push_back(reference->of + " says " + reference->text + " for " + reference->leads_to);
    }
  return lost;
}

// Whether a text stands by the small piece at the end of a line that leads to this spot.
bool is_near(const Box& text, Point p) {
  constexpr double reach = 14.0;
  return p.x > text.x - reach && p.x < text.right() + reach && p.y > text.y - reach && p.y < text.bottom() + reach;
}

// The ends of a wire; the corners of an item.
std::vector<Point> ends_of(const PlacedSheet& sheet, const std::string& id) {
  std::vector<Point> ends;
  for (const PlacedWire& wire : sheet.wires)
    if (wire.id == id) ends.insert(ends.end(), {wire.points.front(), wire.points.back()});
  for (const PlacedItem& item : sheet.items)
    if (item.id == id) ends.insert(ends.end(), {{item.box.x, item.box.y}, {item.box.right(), item.box.bottom()}});
  return ends;
}

// References from an item to what is drawn elsewhere at whose end nothing leads back to that item. (A small labelled
// piece of an item says where the item itself stands: there is no way back to ask for.)
std::vector<std::string> one_way_references(const Drawn& drawn) {
  std::vector<std::string> one_way;
  for (const PlacedSheet& sheet : drawn.sheets.placement)
    for (const PlacedText* reference : references_on(sheet)) {
      if (reference->of.empty() || reference->of == reference->leads_to) continue;
      const PlacedSheet& there = drawn.sheets.placement[read_place(reference->text).sheet];
      const auto ends = ends_of(there, reference->leads_to);
      const auto back = references_on(there);
      const bool leads_back = std::any_of(back.begin(), back.end(), [&](const PlacedText* text) {
        return text->leads_to == reference->of &&
               std::any_of(ends.begin(), ends.end(), [&](Point end) { return is_near(text->box, end); });
      });
      if (!leads_back) one_way.push_back(reference->of + " to " + reference->leads_to);
    }
  return one_way;
}

std::size_t count_of(const std::string& what, const std::string& in) {
  std::size_t count = 0;
  for (std::size_t at = in.find(what); at != std::string::npos; at = in.find(what, at + 1)) ++count;
  return count;
}

void expect_sound(const Drawn& drawn) {
  EXPECT_THAT(lost_references(drawn), IsEmpty());
  EXPECT_THAT(one_way_references(drawn), IsEmpty());
}

TEST(References, LeadToTheirPartnerAndBackInTheExamples) {
  for (const std::string& file : example_files())
    for (const char* paper : {"a4", "letter"}) {
      SCOPED_TRACE(file + " " + paper);
      expect_sound(draw(read_text(file), paper));
    }
}

TEST(References, LeadToTheirPartnerAndBackOverManySheets) {
  std::size_t most = 0;
  for (unsigned seed = 1; seed <= 20; ++seed) {
    SCOPED_TRACE(seed);
    const Drawn drawn = draw(joined(generated_plan(seed, 15)));
    most = std::max(most, drawn.sheets.pages.size());
    expect_sound(drawn);
  }
  EXPECT_GT(most, 5u);
}

TEST(References, LeadToTheirPartnerWhateverIsWiredToWhatever) {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    SCOPED_TRACE(seed);
    expect_sound(draw(joined(tangle(seed, 10 + static_cast<int>(seed) * 4))));
  }
}

TEST(References, AreLinksInThePdf) {
  const Drawn drawn = draw(read_text(std::string(LOOMLEAF_ROOT) + "/examples/net-menders-boat.loom"));
  std::size_t references = 0;
  for (const PlacedSheet& sheet : drawn.sheets.placement) references += references_on(sheet).size();
  EXPECT_GT(references, 100u);
  EXPECT_EQ(count_of("/Subtype /Link", pdf_of(drawn)), references);
}

}  // namespace
}  // namespace loomleaf::test
