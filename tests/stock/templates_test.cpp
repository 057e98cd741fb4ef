// Templates that nobody vouches for: every fault is told with its line and what should stand there.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "support/installed_templates.h"
#include "support/template_folder.h"

namespace loomleaf {
namespace {

using testing::HasSubstr;

std::string installed_text(const std::string& folder, const std::string& file) {
  std::ifstream in(installed_templates().find(folder, file), std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

// The installed file with one place changed, and the line of that place.
struct Changed {
  std::string text;
  int line = 0;
};
Changed changed(const std::string& folder, const std::string& file, const std::string& from, const std::string& to) {
  Changed result{installed_text(folder, file), 0};
  const std::size_t at = result.text.find(from);
  if (at == std::string::npos) throw std::runtime_error("the installed file lacks " + from);
  result.line =
      1 + static_cast<int>(std::count(result.text.begin(), result.text.begin() + static_cast<long>(at), '\n'));
  result.text.replace(at, from.size(), to);
  return result;
}

TemplateFolders with_installed(const TemplateFolder& own) { return {{own.path(), LOOMLEAF_ROOT "/templates"}}; }

std::vector<TemplateError> rulebook_errors(std::string_view text) {
  const TemplateFolder own;
  own.write("rulebooks", "rv.xml", text);
  return load_rulebook(with_installed(own), "rv").errors;
}

std::vector<TemplateError> stock_errors(const std::string& file, std::string_view text) {
  const TemplateFolder own;
  own.write("stock", file, text);
  return load_stock(with_installed(own)).errors;
}

struct Fault {
  const char* file;
  const char* from;
  const char* to;
  const char* complaint;
};

TEST(BadRulebook, IsToldWithItsLineAndWhatShouldStandThere) {
  const Fault faults[] = {
      {"rv.xml", "format=\"1\"", "format=\"2\"", "the format \"2\" is not known, only format=\"1\" is"},
      {"rv.xml", "<rulebook format=\"1\"", "<rulebook", "the format is missing: write format=\"1\""},
      {"rv.xml", "amperes=\"6\"/>", "/>", "lacks amperes: write amperes=\"...\", a number from 0.01 to 10000"},
      {"rv.xml", "amperes=\"6\"/>", "amperes=\"-6\"/>", "amperes=\"-6\" on <conductor>: it should be a number from"},
      {"rv.xml", "amperes=\"6\"/>", "amperes=\"6 A\"/>", "with a point for decimals and no unit"},
      {"rv.xml", "amperes=\"6\"/>", "amperes=\"1e999\"/>", "it should be a number"},
      {"rv.xml", "amperes=\"6\"/>", "amperes=\"nan\"/>", "it should be a number"},
      {"rv.xml", "amperes=\"8\"/>", "amperes=\"5\"/>", "16 AWG carries less than the thinner 18 AWG"},
      {"rv.xml", "size=\"16 AWG\"", "size=\"20 AWG\"",
       "the sizes should go from thin to thick: 20 AWG stands behind 18"},
      {"rv.xml", "size=\"16 AWG\"", "size=\"16\"", "a size is written \"18 AWG\", \"2/0 AWG\" or \"2.5 mm2\""},
      {"rv.xml", "size=\"16 AWG\"", "size=\"5/0 AWG\"", "a size is written"},
      {"rv.xml", "<ampacity insulation_C=\"75\"", "<ampacity insulation_C=\"60\"", "should rise in insulation_C"},
      {"rv.xml", "<ampacity insulation_C=\"60\"", "<ampacity", "the table without insulation_C should stand first"},
      {"rv.xml", "factor=\"0.91\"", "factor=\"1.2\"", "it should be a number from 0.01 to 1"},
      {"rv.xml", "ambient_C=\"40\"", "ambient_C=\"34\"", "the rows should rise in ambient_C"},
      {"rv.xml", "count=\"7\"", "count=\"4\"", "the rows should rise in count"},
      {"rv.xml", "count=\"7\"", "count=\"7.5\"", "it should be a whole number"},
      {"rv.xml", "factor=\"0.7\"", "factor=\"0.9\"", "more conductors together have a greater factor than fewer"},
      {"rv.xml", "counts=\"conductors\"", "counts=\"wires\"", "counts should be \"conductors\" or \"circuits\""},
      {"rv.xml", "longest_mm=\"457.2\"", "longest_mm=\"any\"", "would let all run without a device"},
      {"rv.xml", "longest_mm=\"457.2\"", "longest_mm=\"457.2\" only_from_battery=\"yes\" only_from_charger=\"yes\"",
       "no stretch is fed at a battery and at a charger at once"},
      {"rv.xml", "count_as=\"AWG\"", "count_as=\"mm2\"", "count_as should be \"AWG\" or \"area\""},
      {"rv.xml", "share=\"1\"", "share=\"2\"", "it should be a number from 1 to 1.5"},
      {"rv.xml", "may_carry=\"yes\"", "may_carry=\"maybe\"", "it should be \"yes\" or \"no\""},
      {"rv.xml", "red, black", "red, plaid", "\"plaid\" is no colour"},
      {"rv.xml", "use=\"bond\"", "use=\"earth\"", "use should be \"positive\", \"negative\" or \"bond\""},
      {"rv.xml", "<chassis may_carry", "<frame may_carry", "<frame> is not known in <rulebook>"},
      {"rv.xml", "<position longest_mm", "<place longest_mm", "<place> is not known in <positions>: it holds position"},
      {"rv.xml", "<position longest_mm", "<position shortest_mm=\"1\" longest_mm", "has no attribute shortest_mm"},
      {"rv.xml", "hours=\"3\"", "hours=\"3\" hours=\"4\"", "the attribute hours stands twice"},
      {"rv.xml", "hours=\"3\" source=\"NEC article 100, edition not known\" known=\"memory\"", "hours=\"3\"",
       "does not say where"},
      {"rv.xml", "known=\"memory\"", "known=\"hearsay\"", "it should be \"seen\", \"memory\" or \"practice\""},
      {"rv.xml", "<position longest_mm", "457 mm <position longest_mm", "loose text in <positions>"},
  };
  for (const Fault& fault : faults) {
    const Changed bad = changed("rulebooks", fault.file, fault.from, fault.to);
    const std::vector<TemplateError> errors = rulebook_errors(bad.text);
    ASSERT_FALSE(errors.empty()) << fault.to;
    EXPECT_THAT(errors[0].message, HasSubstr(fault.complaint)) << fault.to;
    EXPECT_EQ(errors[0].line, bad.line) << fault.to;
    EXPECT_THAT(errors[0].file, HasSubstr("rv.xml"));
  }
}

// The installed marine book has a row below 50 V and one for the rest.
TEST(BadRulebook, LetsDevicesBeMoreAtAHigherVoltage) {
  const auto message = [](const std::string& from, const std::string& to) {
    const auto errors = rulebook_errors(changed("rulebooks", "marine.xml", from, to).text);
    return errors.empty() ? std::string() : errors[0].message;
  };
  const std::string low = "share=\"1.5\" below_V=\"50\"";
  EXPECT_THAT(message(low, "share=\"1\" below_V=\"50\""), testing::IsEmpty());
  EXPECT_THAT(message("<device_allowance share=\"1\"  ", "<device_allowance share=\"1.5\"  "), testing::IsEmpty());
  EXPECT_THAT(
      message(low, "share=\"1.2\" below_V=\"24\" known=\"practice\"/>\n<device_allowance share=\"1.3\" below_V=\"50\""),
      HasSubstr("a higher voltage has a greater share than a lower one"));
  EXPECT_THAT(
      message(low, "share=\"1.5\" below_V=\"50\" known=\"practice\"/>\n<device_allowance share=\"1.3\" below_V=\"50\""),
      HasSubstr("the rows should rise in below_V"));
  EXPECT_THAT(message(low, "share=\"1.5\" below_V=\"-1\""), HasSubstr("it should be a number from 1 to 1000"));
  EXPECT_THAT(message("<device_allowance share=\"1\"  ", "<device_allowance share=\"1\" below_V=\"60\"  "),
              HasSubstr("<device_allowance> for every voltage is missing"));
}

// Of two that contradict each other nobody could tell which the book takes.
TEST(BadRulebook, HoldsAFigureTwice) {
  struct Second {
    const char* behind;  // a piece of the installed file
    const char* second;  // what then stands on the next line
    const char* complaint;
  };
  const Second seconds[] = {
      {"<conductor size=\"18 AWG\"  amperes=\"6\"/>", "<conductor size=\"18 AWG\" amperes=\"10\"/>",
       "the sizes should go from thin to thick: 18 AWG stands behind 18 AWG"},
      {"<up_to ambient_C=\"35\" factor=\"0.91\"/>", "<up_to ambient_C=\"35\" factor=\"0.5\"/>",
       "the rows should rise in ambient_C"},
      {"<from count=\"4\"  factor=\"0.8\"/>", "<from count=\"4\" factor=\"0.5\"/>", "the rows should rise in count"},
      {"<from cables=\"1\" percent=\"53\"/>", "<from cables=\"1\" percent=\"20\"/>", "the rows should rise in cables"},
      {"<position longest_mm=\"457.2\"/>", "<position longest_mm=\"457.2\"/>",
       "a second <position> for the same conditions: one is enough"},
      {"<position longest_mm=\"457.2\"/>", "<position longest_mm=\"1000\" only_sheathed=\"no\"/>",
       "a second <position> for the same conditions: one is enough"},
      {"<!-- below 60 V no colour", "x --><least_size size=\"20 AWG\" known=\"practice\"/><!--",
       "a second <least_size> for single conductors: one is enough"},
      {"source=\"NEC 552.10(C)(4), 2008\" known=\"seen\"/>", "<least_bond size=\"6 AWG\" known=\"practice\"/>",
       "a second <least_bond>: one is enough"},
      {"source=\"NEC 310.10(G), edition not known\" known=\"memory\"/>",
       "<parallel from_size=\"2 AWG\" known=\"practice\"/>", "a second <parallel>: one is enough"},
      {"colours=\"black, white\"/>", "<colour use=\"negative\" colours=\"blue\"/>",
       "a second <colour> for \"negative\": one is enough"},
      {"<chassis may_carry=\"yes\" source=\"NEC 552.10(B)(1) exception, 2008\" known=\"seen\"/>",
       "<chassis may_carry=\"no\" known=\"practice\"/>", "a second <chassis>: one is enough"},
      {"<device_allowance share=\"1\" source=\"NEC 552.10(E)(1), 2008\" known=\"seen\"/>",
       "<device_allowance share=\"1\" known=\"practice\"/>",
       "the <device_allowance> without below_V should stand last, and once"},
  };
  for (const Second& each : seconds) {
    const Changed bad = changed("rulebooks", "rv.xml", each.behind, std::string(each.behind) + "\n" + each.second);
    const std::vector<TemplateError> errors = rulebook_errors(bad.text);
    ASSERT_FALSE(errors.empty()) << each.second;
    EXPECT_THAT(errors[0].message, HasSubstr(each.complaint)) << each.second;
    EXPECT_EQ(errors[0].line, bad.line + 1) << each.second;
  }
  const Changed twice = changed("rulebooks", "rv.xml", "colours=\"black, white\"", "colours=\"black, white, black\"");
  EXPECT_THAT(rulebook_errors(twice.text).at(0).message, HasSubstr("a second \"black\" in this list"));
}

// Conductors whose insulation is not known are held to the coolest table: its factors may not be those of a warmer one.
TEST(BadRulebook, LacksTheFactorsOfItsCoolestAmpacities) {
  std::string text = installed_text("rulebooks", "rv.xml");
  const std::size_t begin = text.find("<ambient insulation_C=\"60\""), end = text.find("<ambient insulation_C=\"75\"");
  text.erase(begin, end - begin);
  const std::vector<TemplateError> errors = rulebook_errors(text);
  ASSERT_EQ(errors.size(), 1U);
  EXPECT_THAT(errors[0].message,
              HasSubstr("there are no factors for warm places for this insulation: write an <ambient "
                        "insulation_C=\"60\">"));
  EXPECT_EQ(errors[0].line, changed("rulebooks", "rv.xml", "<ampacity insulation_C=\"60\"", "").line);
}

TEST(BadStock, IsToldWithItsLineAndWhatShouldStandThere) {
  const Fault faults[] = {
      {"wires.xml", "ohm_per_km=\"21.3672\"", "ohm_per_km=\"2.13672\"",
       "copper of that area has about 21.3 ohm per km"},
      {"wires.xml", "size=\"16 AWG\"", "size=\"19 AWG\"", "19 AWG stands behind 18 AWG"},
      {"wires.xml", "area_mm2=\"0.8230\"", "area_mm2=\"0\"", "it should be a number from 0.01 to 1000"},
      {"wires.xml", "size=\"18 AWG\" ", "", "lacks size"},
      {"insulations.xml", "name=\"gxl\"", "name=\"GXL\"", "begins with a small letter"},
      {"insulations.xml", "name=\"gxl\"", "name=\"txl\"", "a second insulation called \"txl\""},
      {"insulations.xml", "<single size=\"0.5 mm2\"   mm=\"1.6\"/>", "<single size=\"0.35 mm2\" mm=\"1.6\"/>",
       "a second <single> of 0.35 mm2: one is enough"},
      {"insulations.xml", "<single size=\"0.5 mm2\"   mm=\"1.6\"/>", "<single size=\"0.5 mm2\" mm=\"1.3\"/>",
       "0.5 mm2 is thinner outside than 0.35 mm2 before it"},
      {"insulations.xml", "<single size=\"0.5 mm2\"   mm=\"1.6\"/>", "<single size=\"0.5 mm2\" mm=\"thin\"/>",
       "it should be a number"},
      {"wires.xml", "size=\"14 SAE\"", "size=\"14 SEA\"", "that of vehicle wire \"14 SAE\""},
      {"joints.xml", "solid_only=\"yes\"", "solid_only=\"often\"", "it should be \"yes\" or \"no\""},
      {"fuses.xml", "name=\"blade\"", "name=\"Blade!\"", "small letters, digits and hyphens"},
      {"fuses.xml", "name=\"maxi\"", "name=\"mini\"", "a second family called \"mini\""},
      {"fuses.xml", "kind=\"fuse\"", "kind=\"link\"", "kind should be \"fuse\" or \"breaker\""},
      {"fuses.xml", "<gate times=\"1.6\"", "<gate times=\"1.2\"", "the gates should rise in times"},
      {"fuses.xml", "no_sooner_s=\"0.75\"", "no_sooner_s=\"750\"", "no_sooner_s is above no_later_s"},
      {"fuses.xml", "<breaks amperes=\"5000\"", "<breaks amperes=\"50000\"", "break no more at the higher one"},
      {"joints.xml", "milliohms=\"1\"", "milliohms=\"one\"", "it should be a number"},
      {"joints.xml", "ways=\"2 3 5\"", "ways=\"5 3 2\"", "it should be rising numbers"},
      {"joints.xml", "least=\"0.14 mm2\"", "least=\"14 mm2\"", "least is thicker than most"},
      {"sleeves.xml", "recovered_mm=\"0.58\"", "recovered_mm=\"5.8\"", "recovered_mm should be below supplied_mm"},
      {"conduits.xml", "bore_mm=\"16.9\"", "bore_mm=\"11\"", "should rise in bore_mm"},
  };
  for (const Fault& fault : faults) {
    const Changed bad = changed("stock", fault.file, fault.from, fault.to);
    const std::vector<TemplateError> errors = stock_errors(fault.file, bad.text);
    ASSERT_FALSE(errors.empty()) << fault.to;
    EXPECT_THAT(errors[0].message, HasSubstr(fault.complaint)) << fault.to;
    EXPECT_NEAR(errors[0].line, bad.line, 1) << fault.to;  // an element's own line where the attribute is on its second
  }
}

TEST(BadTemplate, RatingsMustRise) {
  const Changed bad = changed("stock", "fuses.xml", "ratings_A=\"2 3 4", "ratings_A=\"2 4 3");
  EXPECT_THAT(stock_errors("fuses.xml", bad.text).at(0).message, HasSubstr("\"3\" in ratings_A on <family>"));
}

TEST(BadTemplate, IsNoXml) {
  EXPECT_THAT(rulebook_errors("ampacity: 6\n").at(0).message, HasSubstr("not well-formed XML"));
  EXPECT_THAT(rulebook_errors("").at(0).message, HasSubstr("not well-formed XML"));
  EXPECT_THAT(rulebook_errors("<rulebook format=\"1\">\n\n<ampacity").at(0).message, HasSubstr("not well-formed XML"));
  EXPECT_EQ(rulebook_errors("<rulebook format=\"1\">\n\n<ampacity").at(0).line, 3);
}

TEST(BadTemplate, HasAnotherRoot) {
  const auto errors = rulebook_errors("\n<wires format=\"1\"/>");
  EXPECT_EQ(errors.at(0).message, "the outermost element is <wires>, here it should be <rulebook>");
  EXPECT_EQ(errors.at(0).line, 2);
}

TEST(BadTemplate, HasMoreBesideItsRoot) {
  const std::string good = installed_text("rulebooks", "rv.xml");
  const int lines = static_cast<int>(std::count(good.begin(), good.end(), '\n'));
  EXPECT_TRUE(rulebook_errors(good + "\n<!-- a comment -->\n").empty());
  const std::pair<const char*, const char*> tails[] = {
      {"\n  <voltage_drop percent=\"10\"/>", "a second outermost element, <voltage_drop>: a template has one"},
      {"\n <rulebook format=\"1\"/>", "a second outermost element, <rulebook>: a template has one"},
      {"\n drop 10 %", "loose text beside the outermost element <rulebook>"},
      {"\n <![CDATA[drop 10 %]]>", "loose text beside the outermost element <rulebook>"},
  };
  for (const auto& [tail, complaint] : tails) {
    const auto errors = rulebook_errors(good + tail);
    ASSERT_EQ(errors.size(), 1U) << tail;
    EXPECT_EQ(errors[0].message, complaint) << tail;
    EXPECT_EQ(errors[0].line, lines + 2) << tail;
  }
  EXPECT_THAT(rulebook_errors("drop\n<rulebook format=\"1\"/>").at(0).message, HasSubstr("loose text beside"));
}

TEST(BadTemplate, HasADoctypeWithEntities) {
  const auto errors = rulebook_errors(
      "<!DOCTYPE rulebook [<!ENTITY a \"aaaa\"><!ENTITY b \"&a;&a;&a;\">]>\n<rulebook format=\"1\" title=\"&b;\"/>");
  EXPECT_EQ(errors.at(0).message, "a template has no DOCTYPE: leave it out");
}

TEST(BadTemplate, IsNotUtf8) {
  const auto errors = rulebook_errors("<rulebook format=\"1\"\n title=\"caf\xE9\"/>");
  EXPECT_EQ(errors.at(0).message, "this byte is not UTF-8 text");
  EXPECT_EQ(errors.at(0).line, 2);
}

TEST(BadTemplate, HidesAControlCharacterInAReference) {
  const Changed bad = changed("rulebooks", "rv.xml", "title=\"recreational", "title=\"&#27;[2Jrecreational");
  EXPECT_THAT(rulebook_errors(bad.text).at(0).message, HasSubstr("a character that cannot be printed"));
}

TEST(BadTemplate, ShowsNoControlCharactersInItsComplaint) {
  const Changed bad = changed("rulebooks", "rv.xml", "amperes=\"6\"/>", "amperes=\"&#27;[2J\"/>");
  const std::string message = rulebook_errors(bad.text).at(0).message;
  EXPECT_TRUE(std::none_of(message.begin(), message.end(), [](char c) { return static_cast<unsigned char>(c) < 32; }));
}

TEST(BadTemplate, HasOverlongText) {
  const Changed bad = changed("rulebooks", "rv.xml", "title=\"", "title=\"" + std::string(300, 'x'));
  EXPECT_THAT(rulebook_errors(bad.text).at(0).message, HasSubstr("over 200 characters long"));
}

TEST(BadTemplate, IsHuge) {
  const auto errors =
      rulebook_errors("<rulebook format=\"1\">" + std::string(std::size_t{5} << 20, ' ') + "</rulebook>");
  ASSERT_EQ(errors.size(), 1U);
  EXPECT_THAT(errors[0].message, HasSubstr("over 4 MiB"));
}

TEST(BadTemplate, IsNestedWithoutEnd) {
  std::string text = "<rulebook format=\"1\" title=\"deep\">";
  for (int i = 0; i < 500000; ++i) text += "<a>";
  EXPECT_FALSE(rulebook_errors(text).empty());
  for (int i = 0; i < 500000; ++i) text += "</a>";
  EXPECT_FALSE(rulebook_errors(text + "</rulebook>").empty());
}

TEST(BadTemplate, StopsComplainingAfterAWhile) {
  std::string text = "<rulebook format=\"1\">";
  for (int i = 0; i < 10000; ++i) text += "<thing/>\n";
  EXPECT_EQ(rulebook_errors(text + "</rulebook>").size(), 20U);
}

TEST(BadTemplate, IsAFolder) {
  const TemplateFolder own;
  std::filesystem::create_directories(own.path() / "rulebooks" / "rv.xml");
  EXPECT_THAT(load_rulebook(with_installed(own), "rv").errors.at(0).message, HasSubstr("no file that can be read"));
}

TEST(BadTemplate, IsNowhere) {
  EXPECT_EQ(load_rulebook(installed_templates(), "yacht").errors.at(0).file, "rulebooks/yacht.xml");
  EXPECT_EQ(load_stock({{"/nonexistent"}}).errors.size(), 6U);
}

TEST(UsersTemplate, OfTheSameNameWins) {
  const TemplateFolder own;
  own.write("rulebooks", "rv.xml", changed("rulebooks", "rv.xml", "amperes=\"6\"", "amperes=\"5\"").text);
  const auto book = load_rulebook(with_installed(own), "rv");
  ASSERT_TRUE(book.errors.empty());
  EXPECT_EQ(book.value.ampacity_of(WireSize::awg(18), {})->value, amperes(5));
  EXPECT_EQ(load_rulebook(installed_templates(), "rv").value.ampacity_of(WireSize::awg(18), {})->value, amperes(6));
}

TEST(UsersTemplate, OfANewNameStandsBesideTheInstalledOnes) {
  const TemplateFolder own;
  own.write("rulebooks", "shed.xml", installed_text("rulebooks", "rv.xml"));
  own.write("rulebooks", "notes.txt", "no template");
  EXPECT_EQ(with_installed(own).list("rulebooks"), (std::vector<std::string>{"marine", "metric", "rv", "shed"}));
  EXPECT_EQ(load_rulebook(with_installed(own), "shed").value.name, "shed");
}

TEST(UsersTemplate, IsFoundWhateverTheCaseOfItsName) {
  const TemplateFolder own;
  own.write("rulebooks", "My-Shed.XML", installed_text("rulebooks", "rv.xml"));
  EXPECT_EQ(with_installed(own).list("rulebooks"), (std::vector<std::string>{"marine", "metric", "my-shed", "rv"}));
  for (const char* name : {"my-shed", "My-Shed", "MY-SHED"}) {
    const auto book = load_rulebook(with_installed(own), name);
    EXPECT_TRUE(book.errors.empty()) << name;
    EXPECT_EQ(book.value.name, "my-shed");
  }
  EXPECT_TRUE(load_rulebook(installed_templates(), "RV").errors.empty());
}

// An own RV.xml is meant to stand in for rv.xml: passed over, its stricter figures would be lost unsaid.
TEST(UsersTemplate, InCapitalsStandsInForTheInstalledOne) {
  const TemplateFolder own;
  own.write("rulebooks", "RV.xml", changed("rulebooks", "rv.xml", "amperes=\"6\"", "amperes=\"5\"").text);
  EXPECT_EQ(load_rulebook(with_installed(own), "rv").value.ampacity_of(WireSize::awg(18), {})->value, amperes(5));
  EXPECT_EQ(with_installed(own).list("rulebooks"), (std::vector<std::string>{"marine", "metric", "rv"}));
}

TEST(UsersTemplate, ReplacesOneStockFileAndLeavesTheOthers) {
  const TemplateFolder own;
  own.write("stock", "joints.xml", "<joints format=\"1\"><contact milliohms=\"2.5\" known=\"practice\"/></joints>");
  const auto stock = load_stock(with_installed(own));
  ASSERT_TRUE(stock.errors.empty());
  EXPECT_EQ(stock.value.contact_resistance.value, milliohms(2.5));
  EXPECT_TRUE(stock.value.splices.empty());
  EXPECT_EQ(stock.value.wires.size(), installed_stock().wires.size());
}

TEST(TemplateFolders, RefusesNamesThatLeadOutOfTheFolder) {
  const TemplateFolder own;
  own.write("rulebooks", "rv.xml", "<rulebook/>");
  own.write("secret", "key.xml", "<key/>");
  const TemplateFolders folders{{own.path()}};
  EXPECT_FALSE(folders.find("rulebooks", "rv.xml").empty());
  for (const char* name :
       {"../secret/key.xml", "/etc/passwd", "..", ".", "", "a/../rv.xml", "sub/rv.xml", "..\\rv.xml"}) {
    EXPECT_TRUE(folders.find("rulebooks", name).empty()) << name;
    EXPECT_FALSE(load_rulebook(folders, name).errors.empty()) << name;
  }
  EXPECT_TRUE(folders.find("..", "rv.xml").empty());
  EXPECT_TRUE(folders.list("../secret").empty());
  EXPECT_TRUE(folders.find("rulebooks", std::string_view("rv.xml\0.png", 11)).empty());
}

}  // namespace
}  // namespace loomleaf
