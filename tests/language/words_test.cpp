#include "loomleaf/language/words.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>

namespace loomleaf {
namespace {

TEST(Words, ReserveKeywordsPropertiesAndColoursInAnyCase) {
  for (const char* word : {"fuse", "Fuse", "limit", "at", "every", "to", "RED", "gray", "purple", "include", "color"})
    EXPECT_TRUE(is_reserved(word)) << word;
}

TEST(Words, LeaveUnitsAndKindsFreeForNames) {
  for (const char* word : {"A", "C", "V", "BAT", "solar", "motor"}) EXPECT_FALSE(is_reserved(word)) << word;
}

TEST(Words, ListWhatIsReservedOnceAndInOrder) {
  const auto words = reserved_words();
  EXPECT_TRUE(std::ranges::is_sorted(words));
  EXPECT_EQ(std::set<std::string>(words.begin(), words.end()).size(), words.size());
  for (const std::string& word : words) EXPECT_TRUE(is_reserved(word)) << word;
}

TEST(Words, GiveEachKeywordItsOwnName) {
  for (const std::string& name : keyword_names()) EXPECT_EQ(name_of(*find_keyword(name)), name);
}

// The same dimension without a word cannot mean two things on one statement.
TEST(PropertyTable, HasOneMeaningForABareQuantity) {
  for (const std::string& name : keyword_names()) {
    std::set<Dimension> seen;
    for (const PropertyRow& row : property_rows()) {
      if (!row.word.empty() || !has(row.on, *find_keyword(name))) continue;
      EXPECT_TRUE(seen.insert(row.dimension).second) << name << " " << row.example;
    }
  }
}

TEST(PropertyTable, GivesAnExampleThatCanBeRead) {
  for (const PropertyRow& row : property_rows()) {
    for (const std::string& name : keyword_names()) {
      const Keyword keyword = *find_keyword(name);
      if (!has(row.on, keyword)) continue;
      const bool run = keyword == Keyword::wire || keyword == Keyword::cable;
      const bool nameless = keyword == Keyword::plan || keyword == Keyword::system || keyword == Keyword::spool;
      const std::string head = keyword == Keyword::leg ? name + " P to Q " : nameless ? name + " " : name + " X9 ";
      const SourceText source("x", head + (run ? "P to Q " : "") + std::string(row.example));
      const Document document = read_document(source);
      ASSERT_EQ(document.statements.size(), 1u);
      EXPECT_TRUE(std::ranges::any_of(document.statements[0].properties, [&](const Property& property) {
        return property.kind == row.kind;
      })) << source.text();
    }
  }
}

TEST(Units, AreKnownInFullAndInPlural) {
  for (const char* word : {"metres", "meter", "feet", "foot", "amps", "volts", "watts", "inches", "ohms", "seconds"})
    EXPECT_NE(find_unit(word), nullptr) << word;
}

}  // namespace
}  // namespace loomleaf
