#include "loomleaf/language/lexer.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace loomleaf {
namespace {

// The tokens of each statement: words and numbers as they are, texts in quotes, a bar between what is glued.
std::string tokens_of(const std::string& text) {
  const SourceText source("plan.loom", text);
  std::vector<Complaint> complaints;
  Lexer lexer(source, complaints);
  std::string out;
  while (const auto statement = lexer.next()) {
    if (!out.empty()) out += " / ";
    for (std::size_t k = 0; k < statement->tokens.size(); ++k) {
      const Token& token = statement->tokens[k];
      if (k > 0) out += token.glued ? "|" : " ";
      out += token.kind == Token::Kind::text ? '"' + token.text + '"' : token.text;
    }
  }
  for (const Complaint& complaint : complaints) out += " !" + complaint.message;
  return out;
}

struct Row {
  const char* text;
  const char* tokens;
};

class LexerTable : public testing::TestWithParam<Row> {};

TEST_P(LexerTable, SplitsInto) { EXPECT_EQ(tokens_of(GetParam().text), GetParam().tokens); }

INSTANTIATE_TEST_SUITE_P(Numbers, LexerTable,
                         testing::Values(Row{"5A", "5|A"}, Row{"5 A", "5 A"}, Row{"-5 C", "-5 C"}, Row{".5 A", ".5 A"},
                                         Row{"5. A", "5. A"}, Row{"2.5mm2", "2.5|mm2"}, Row{"2x1.5mm2", "2|x|1.5|mm2"},
                                         Row{"2\u00D71.5 mm\u00B2", "2|x|1.5 mm\u00B2"}, Row{"1/0AWG", "1/0|AWG"},
                                         Row{"6ft4in", "6|ft|4|in"}, Row{"6'4\"", "6|'|4|\""},
                                         Row{"6\u20194\u201D", "6|'|4|\""}, Row{"6' 4\"", "6|' 4|\""},
                                         Row{"0.2..4", "0.2|..|4"}, Row{"0.2\u20264", "0.2|..|4"}, Row{"2,5", "2,5"},
                                         Row{"2, 5", "2|, 5"}, Row{"4 h/day", "4 h/day"},
                                         Row{"\u22125 \u00B0C", "-5 \u00B0C"}, Row{"1e9", "1e9"}, Row{"1 e9", "1 e9"}));

INSTANTIATE_TEST_SUITE_P(Names, LexerTable,
                         testing::Values(Row{"LA1..LA4+", "LA1|..|LA4+"}, Row{"F1,NB", "F1|,|NB"},
                                         Row{"BAT\u2212", "BAT-"}, Row{"BAT\u2013", "BAT-"}, Row{"D1.in+", "D1.in+"},
                                         Row{"R1.87a", "R1.87a"}, Row{"red/white", "red/white"},
                                         Row{"class-t", "class-t"}));

INSTANTIATE_TEST_SUITE_P(Texts, LexerTable,
                         testing::Values(Row{"a \"b c\" d", "a \"b c\" d"}, Row{"\u201Cb c\u201D", "\"b c\""},
                                         Row{"\u201Eb\u201C", "\"b\""}, Row{"\u00ABb\u00BB", "\"b\""},
                                         Row{"\"6 \u201Cx\u201D\"", "\"6 \u201Cx\u201D\""},
                                         Row{"\"a # b\"", "\"a # b\""}, Row{"\"\"", "\"\""}, Row{"F1\"b\"", "F1|\"b\""},
                                         Row{"\"a\tb\"", "\"a b\""}));

INSTANTIATE_TEST_SUITE_P(Lines, LexerTable,
                         testing::Values(Row{"a b # c\nd", "a b / d"}, Row{"a\n b\n\tc\nd", "a b c / d"},
                                         Row{"a\r\n b\r\nc\r\n", "a b / c"}, Row{"a\n\n# x\n b", "a b"}, Row{"", ""},
                                         Row{"# only\n\n", ""}, Row{"a\n\u00A0b", "a b"}, Row{"a#b", "a"}));

TEST(Lexer, KeepsColumnAfterTab) {
  const SourceText source("plan.loom", "fuse\tF1");
  std::vector<Complaint> complaints;
  const auto statement = Lexer(source, complaints).next();
  ASSERT_TRUE(statement);
  EXPECT_EQ(source.start(statement->tokens[1].span).column, 6);
}

TEST(Lexer, SpansTheTokenAsWritten) {
  const SourceText source("plan.loom", "load \u201CLamp\u201D 3W");
  std::vector<Complaint> complaints;
  const auto statement = Lexer(source, complaints).next();
  ASSERT_TRUE(statement);
  EXPECT_EQ(source.text(statement->tokens[1].span), "\u201CLamp\u201D");
  EXPECT_EQ(source.text(statement->tokens[3].span), "W");
}

TEST(Lexer, ComplainsOfALineWithoutEnd) {
  const std::string text = "fuse F1 5 A\n" + std::string(Lexer::longest_line + 1, 'x') + "\nbus NB";
  EXPECT_EQ(tokens_of(text), "fuse F1 5 A / bus NB !this line is longer than 10000 characters");
}

TEST(Lexer, ComplainsOfAStatementWithoutEnd) {
  std::string text = "bus A\n";
  for (std::size_t k = 0; k <= Lexer::longest_statement / 1000; ++k) {
    text += ' ';
    for (int n = 0; n < 1000; ++n) text += "x ";
    text += '\n';
  }
  const SourceText source("plan.loom", text + "bus B\n");
  std::vector<Complaint> complaints;
  Lexer lexer(source, complaints);
  EXPECT_TRUE(lexer.next()->damaged);
  EXPECT_EQ(lexer.next()->tokens.size(), 2u);
  ASSERT_EQ(complaints.size(), 1u);
  EXPECT_EQ(complaints[0].message, "this statement has more than 100000 words");
}

}  // namespace
}  // namespace loomleaf
