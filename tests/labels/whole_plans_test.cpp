// The label sheets of whole plans, all examples and 200 generated ones, read back from the PDF.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <map>

#include "diagram/support/generated_plan.h"
#include "labels/support/label_maker.h"
#include "loomleaf/command/examine.h"
#include "support/golden_plans.h"
#include "support/outside_tools.h"

namespace loomleaf::test {
namespace {

using testing::IsEmpty;

constexpr const char* kStocks[] = {"plain", "sleeve-2to1", "wrap", "sleeve-3to1", "flag"};

// A sheet of labels as the test knows it before it reads the PDF: what its title says, and nothing of what is on it.
struct Sheet {
  const LabelStock* stock;
  std::size_t plan;
};

struct OnSheet {
  std::map<std::string, int> ids;          // how many labels bear it
  std::map<std::string, int> right, left;  // how many point each way
};

// Which IDs are to be labelled, worked out from the plan by the rule of the design alone: both ends of each wire and
// each sheath, and each core of a cable with more than two cores or whose cores end at different items.
std::map<std::string, int> wanted_labels(const Plan& plan) {
  std::map<std::string, int> wanted;
  for (const Run& run : plan.runs) {
    if (run.is_cable) wanted[run.id] += 2;
    bool parts = !run.is_cable || run.conductors.size() > 2;
    const Conductor& first = plan.conductors[run.conductors.front()];
    for (const ConductorId core : run.conductors) {
      const Conductor& other = plan.conductors[core];
      parts = parts || plan.terminals[other.from].item != plan.terminals[first.from].item ||
              plan.terminals[other.to].item != plan.terminals[first.to].item;
    }
    for (const ConductorId core : run.conductors)
      if (parts) wanted[plan.conductors[core].id] += 2;
  }
  return wanted;
}

// The share of its height that a letter has left on the thinnest wire of a size: 2 mm there is what it must have.
double least_printed_cap(const LabelSize& size) {
  if (size.supplied_bore_mm <= 0.0) return 2.0;
  const double supplied = size.supplied_bore_mm, wall = size.recovered_wall_mm, bore = size.recovered_bore_mm;
  const double section = wall * (bore + wall);
  // No thicker wire than the size is for is on it; that one needs the least enlargement.
  const double thickest = supplied / 1.2;
  return 2.0 * std::sqrt(supplied * supplied + 4.0 * section) / std::sqrt(thickest * thickest + 4.0 * section);
}

class LabelReader {
 public:
  explicit LabelReader(const std::vector<Sheet>& sheets, std::vector<OnSheet>& plans)
      : sheets_(sheets), plans_(plans) {}

  void read(const std::string& pdf) {
    std::map<int, std::vector<PrintedWord>> pages;
    for (PrintedWord& word : words_of(pdf)) pages[word.page].push_back(std::move(word));
    ASSERT_EQ(pages.size(), sheets_.size());
    for (auto& [number, words] : pages) read_page(words, sheets_[static_cast<std::size_t>(number) - 1]);
  }

 private:
  static const LabelSize* size_named(const std::vector<PrintedWord>& words, const LabelStock& stock) {
    for (std::size_t i = 0; i + 1 < words.size(); ++i)
      if (words[i].text == "size") {
        std::string name = words[i + 1].text;
        if (name.back() == ',') name.pop_back();
        return stock.find(name);
      }
    return nullptr;
  }

  void read_page(const std::vector<PrintedWord>& words, const Sheet& sheet) {
    const LabelSize* size = size_named(words, *sheet.stock);
    if (!size) return;  // a sheet without labels says no size
    bool back = false;
    for (const PrintedWord& word : words) back = back || word.text == "BACK";  // in the title
    const double top = back ? size->page_height_mm - size->bottom_edge() : size->first_y_mm;
    const double bottom = back ? size->page_height_mm - size->first_y_mm : size->bottom_edge();
    std::map<int, std::vector<const PrintedWord*>> cells;
    for (const PrintedWord& word : words)
      if (word.box.y > top && word.box.bottom() < bottom)
        cells[cell_of(word, *size, *sheet.stock, back)].push_back(&word);
    for (const auto& [cell, inside] : cells) read_cell(inside, cell, *size, sheet, back);
  }

  // The label that a word stands on, half a millimetre or more inside its face.
  static int cell_of(const PrintedWord& word, const LabelSize& size, const LabelStock& stock, bool back) {
    const double y = back ? size.page_height_mm - word.box.bottom() : word.box.y;
    const int column = static_cast<int>((word.box.x - size.first_x_mm) / size.pitch_x_mm);
    const int n = static_cast<int>((y - size.first_y_mm) / size.pitch_y_mm) * size.columns + column;
    Box face = face_of(size, n, back);
    if (inside(word.box, face, 0.5)) return n;
    face.x += size.second_x_mm - size.face.x;
    if (stock.kind == LabelKind::flag && inside(word.box, face, 0.5)) return n;
    ADD_FAILURE() << stock.name << " " << size.name << ": `" << word.text << "` on no face, at " << word.box.x << ", "
                  << word.box.y;
    return -1;
  }

  void read_cell(const std::vector<const PrintedWord*>& words, int cell, const LabelSize& size, const Sheet& sheet,
                 bool back) {
    // The ID stands at the left edge, the uppermost there, of the room for text, within 0.05 mm of the stock's pitch.
    const double left = face_of(size, cell, back).x + 0.5;
    const PrintedWord* id = nullptr;
    for (const PrintedWord* word : words) {
      if (std::fabs(word->box.x - left) <= 0.05 && (!id || word->box.y < id->box.y)) id = word;
      // From ascent to descent a line is 1.6 capitals of this typeface high (measured of its file: 1.215 em, capital
      // 0.76 em).
      EXPECT_GE(word->box.h / (1.215 / 0.76), least_printed_cap(size) - 0.01) << sheet.stock->name << " " << word->text;
    }
    ASSERT_NE(id, nullptr) << sheet.stock->name << " " << size.name << " cell " << cell;
    if (back) return;
    OnSheet& on = plans_[sheet.plan];
    ++on.ids[id->text];
    for (const PrintedWord* word : words) {
      if (word->text == "\xE2\x86\x92") return void(++on.right[id->text]);
      if (word->text == "\xE2\x86\x90") return void(++on.left[id->text]);
    }
  }

  const std::vector<Sheet>& sheets_;
  std::vector<OnSheet>& plans_;
};

// Draws the labels of plans on their stocks into one PDF, reads that, and compares with what the plans want.
void expect_labelled(const std::vector<std::pair<std::string, std::string>>& plans, int copies, const char* paper) {
  std::vector<LabelStock> stocks;
  for (const char* name : kStocks) stocks.push_back(label_stock(name, paper));
  std::vector<Page> pages;
  std::vector<Sheet> sheets;
  std::vector<std::map<std::string, int>> wanted;
  std::vector<std::vector<std::string>> lost;
  for (const auto& [name, text] : plans) {
    const SourceText source(name, text);
    const Examination seen = examine(source, installed_templates());
    ASSERT_TRUE(seen.understood()) << name;
    const LabelStock& stock = stocks[wanted.size() % stocks.size()];
    LabelWishes wishes;
    wishes.copies = copies;
    LabelSheets made = draw_label_sheets(texts_of(list_labels(seen.plan, seen.circuit, seen.study, seen.stock), stock),
                                         stock, wishes, title_fields(), type());
    for (Page& page : made.pages) {
      pages.push_back(std::move(page));
      sheets.push_back({&stock, wanted.size()});
    }
    wanted.push_back(wanted_labels(seen.plan));
    lost.emplace_back();
    for (const std::string& remark : made.could_not_fit)
      if (remark.find("not printed") != std::string::npos) lost.back().push_back(remark);
  }
  std::vector<OnSheet> found(wanted.size());
  LabelReader(sheets, found).read(pdf_of(std::move(pages)));
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    for (const auto& [id, times] : wanted[i]) {
      const int printed = found[i].ids[id];
      const bool is_lost = std::any_of(lost[i].begin(), lost[i].end(), [&, &name = id](const std::string& remark) {
        const std::string names = remark.substr(0, remark.find(':'));
        return (" " + names + ",").find(" " + name + ",") != std::string::npos;
      });
      EXPECT_EQ(printed, is_lost ? 0 : times * copies) << plans[i].first << " " << id;
      // Where the far end had room, half of the arrows point each way.
      if (found[i].right[id] + found[i].left[id] == printed) {
        EXPECT_EQ(found[i].right[id], found[i].left[id]) << plans[i].first << " " << id;
      }
    }
    for (const auto& [id, times] : found[i].ids) EXPECT_TRUE(wanted[i].contains(id)) << plans[i].first << " " << id;
  }
}

TEST(WholePlans, LabelsOfTheExamplesAreOnTheirFacesLegibleAndComplete) {
  std::vector<std::pair<std::string, std::string>> plans;
  for (const auto& folder : {LOOMLEAF_ROOT "/examples", LOOMLEAF_ROOT "/examples/faulty"})
    for (const std::string& name : golden_names(folder)) {
      const std::string text = read_golden(std::filesystem::path(folder) / (name + ".loom"));
      // The whole ones on each stock; kStocks are taken in turn.
      const int times = std::string(folder).ends_with("faulty") ? 1 : static_cast<int>(std::size(kStocks));
      for (int i = 0; i < times; ++i) plans.emplace_back(name, text);
    }
  EXPECT_GE(plans.size(), 35u);
  expect_labelled(plans, 1, "a4");
  expect_labelled(plans, 1, "letter");
}

class GeneratedPlans : public testing::TestWithParam<unsigned> {};

TEST_P(GeneratedPlans, LabelsAreOnTheirFacesLegibleAndComplete) {
  std::vector<std::pair<std::string, std::string>> plans;
  for (unsigned seed = GetParam(); seed < GetParam() + 50; ++seed)
    plans.emplace_back("seed " + std::to_string(seed), joined(generated_plan(seed, 3 + static_cast<int>(seed % 10))));
  expect_labelled(plans, GetParam() == 1 ? 2 : 1, GetParam() == 51 ? "letter" : "a4");
}

// 200 plans, fifty in one PDF.
INSTANTIATE_TEST_SUITE_P(Labels, GeneratedPlans, testing::Values(1u, 51u, 101u, 151u));

}  // namespace
}  // namespace loomleaf::test
