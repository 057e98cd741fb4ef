// Label stock files, the installed ones and a user's own.
#include "loomleaf/sheets/label_stock.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/installed_templates.h"
#include "support/template_folder.h"

namespace loomleaf {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

std::vector<TemplateError> errors_of(const std::string& xml, std::string_view paper = "a4") {
  const TemplateFolder folder;
  folder.write("labels", "own.xml", xml);
  return load_label_stock({{folder.path()}}, "own", paper).errors;
}

constexpr const char* kRoot = "kind=\"strip\" title=\"own\" least-capital=\"2\"";
constexpr const char* kFace = "x=\"2\" y=\"1\" width=\"56\" height=\"10\"";
constexpr const char* kLayout =
    "papers=\"a4\" width=\"210\" height=\"297\" first-x=\"15\" first-y=\"20\" pitch-x=\"60\" pitch-y=\"12\" "
    "columns=\"3\" rows=\"20\"";

// One size of a stock, an element a line: the root on line 1, the size on 2, its label on 3, face 4, `more` 5,
// layout 6.
std::string own(const std::string& root, const std::string& face, const std::string& more, const std::string& layout) {
  return "<label-stock format=\"1\" " + root + ">\n<size name=\"one\">\n<label width=\"60\" height=\"12\"/>\n<face " +
         face + "/>\n" + more + "\n<layout " + layout + "/>\n</size>\n</label-stock>\n";
}

// The layout with one of its attributes given another value.
std::string layout_with(const std::string& name, const std::string& value) {
  std::string layout = kLayout;
  const std::size_t begin = layout.find(name + "=\"") + name.size() + 2;
  return layout.replace(begin, layout.find('"', begin) - begin, value);
}

TEST(LabelStock, OwnOneIsTaken) { EXPECT_THAT(errors_of(own(kRoot, kFace, "", kLayout)), IsEmpty()); }

struct Fault {
  std::string xml;
  int line;
  const char* says;
};

TEST(LabelStock, FaultsAreNamedWithTheirLines) {
  const char* const sleeve = "kind=\"sleeve\" title=\"own\" least-capital=\"2\"";
  const char* const bores = "source=\"own\" known=\"practice\" recovered-wall=\"0.5\"";
  const Fault faults[] = {
      {own(kRoot, "x=\"9\" y=\"1\" width=\"56\" height=\"10\"", "", kLayout), 4, "edge of the label"},
      {own(kRoot, "x=\"2\" y=\"1\" width=\"wide\" height=\"10\"", "", kLayout), 4, "width"},
      {own(kRoot, kFace, "", layout_with("pitch-x", "50")), 6, "over each other"},
      {own(kRoot, kFace, "", layout_with("first-x", "40")), 6, "last column"},
      {own(kRoot, kFace, "", layout_with("rows", "23")), 6, "last row"},
      {own(kRoot, kFace, "", layout_with("first-y", "5")), 6, "first-y"},
      {own(kRoot, kFace, "", layout_with("columns", "2.5")), 6, "columns"},
      {own(kRoot, kFace, "", layout_with("first-x", "nan")), 6, "first-x"},
      {own(kRoot, kFace, "<sleeve/>", kLayout), 5, "sleeve"},
      {own("kind=\"ribbon\" title=\"own\" least-capital=\"2\"", kFace, "", kLayout), 1,
       "sleeve, wrap, flag, strip, panel, fuses"},
      {own("kind=\"strip\" title=\"own\" least-capital=\"1.9\"", kFace, "", kLayout), 1, "2 mm or more"},
      {own("kind=\"strip\" title=\"own\" sides=\"2\" least-capital=\"2\"", kFace, "", kLayout), 1, "sides"},
      {own(sleeve, kFace, "", kLayout), 2, "sleeve"},
      {own(sleeve, kFace, std::string("<sleeve supplied-bore=\"6\" recovered-bore=\"6\" ") + bores + "/>", kLayout), 5,
       "recovered bore"},
      {own("kind=\"wrap\" title=\"own\" least-capital=\"2\"", kFace, "", kLayout), 2, "tail"},
      {own("kind=\"flag\" title=\"own\" least-capital=\"2\"", kFace, "<second x=\"40\"/>", kLayout), 5,
       "behind the first"},
      {own("kind=\"flag\" title=\"own\" least-capital=\"2\"", "x=\"0\" y=\"0\" width=\"25\" height=\"12\"",
           "<second x=\"36\"/>", kLayout),
       5, "edge of the label"},
      {"<label-stock format=\"1\" kind=\"strip\" title=\"own\" least-capital=\"2\"/>", 1, "size"},
  };
  for (const Fault& fault : faults) {
    const auto errors = errors_of(fault.xml);
    ASSERT_THAT(errors, Not(IsEmpty())) << fault.says;
    EXPECT_EQ(errors[0].line, fault.line) << errors[0].message;
    EXPECT_THAT(errors[0].message, HasSubstr(fault.says));
  }
}

TEST(LabelStock, TwoSizesOfOneNameAreRefused) {
  std::string two = own(kRoot, kFace, "", kLayout);
  const std::size_t begin = two.find("<size"), end = two.find("</size>") + 8;
  two.insert(end, two.substr(begin, end - begin));
  const auto errors = errors_of(two);
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_EQ(errors[0].line, 8);
  EXPECT_THAT(errors[0].message, HasSubstr("`one`"));
}

TEST(LabelStock, UnknownStockNamesTheKnownOnes) {
  const auto errors = load_label_stock(installed_templates(), "marble", "a4").errors;
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_THAT(errors[0].message, HasSubstr("flag, fuse-block, panel, plain, sleeve-2to1, sleeve-3to1, wrap"));
}

TEST(LabelStock, PaperWithoutALayoutIsSaid) {
  const auto errors = errors_of(own(kRoot, kFace, "", kLayout), "letter");
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_THAT(errors[0].message, HasSubstr("letter"));
}

TEST(LabelStock, LargeDiagramPapersTakeTheHomePrintersSheet) {
  const auto width = [](const char* paper) {
    return load_label_stock(installed_templates(), "plain", paper).value.sizes.front().page_width_mm;
  };
  EXPECT_EQ(width("a3"), 210.0);
  EXPECT_EQ(width("tabloid"), 215.9);
}

TEST(LabelStock, LeastCapitalIsSixteenMinutesOfArcInTheHand) {
  // h = 2 d tan(x / 2) (FAA human factors, seen), 16 minutes (NUREG-0700, seen), 430 mm.
  const double height = 2.0 * 430.0 * std::tan(8.0 / 60.0 * 3.14159265 / 180.0);
  EXPECT_NEAR(kLeastLegibleCapMm, height, 0.01);
  for (const std::string& name : installed_templates().list("labels"))
    EXPECT_GE(load_label_stock(installed_templates(), name, "a4").value.least_cap_mm, kLeastLegibleCapMm) << name;
}

TEST(LabelStock, SleevesOfTheLabelsAreThoseThatOneCanBuy) {
  for (const char* name : {"sleeve-2to1", "sleeve-3to1"})
    for (const LabelSize& label : load_label_stock(installed_templates(), name, "a4").value.sizes) {
      const auto& sleeves = installed_stock().sleeves;
      EXPECT_TRUE(std::any_of(sleeves.begin(), sleeves.end(),
                              [&](const Sleeve& sleeve) {
                                return sleeve.kind == "single wall" &&
                                       sleeve.supplied_bore == millimetres(label.supplied_bore_mm) &&
                                       sleeve.recovered_bore == millimetres(label.recovered_bore_mm);
                              }))
          << name << " " << label.name;
    }
}

TEST(LabelStock, SleeveLaidFlatIsHalfItsCircumferenceHigh) {
  for (const char* name : {"sleeve-2to1", "sleeve-3to1"})
    for (const LabelSize& sleeve : load_label_stock(installed_templates(), name, "a4").value.sizes) {
      EXPECT_NEAR(sleeve.label_height_mm, 3.14159265 * sleeve.supplied_bore_mm / 2.0, 0.11) << name << sleeve.name;
      EXPECT_LE(sleeve.label_height_mm, 3.14159265 * sleeve.supplied_bore_mm / 2.0) << name << sleeve.name;
    }
}

}  // namespace
}  // namespace loomleaf
