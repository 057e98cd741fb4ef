#include <fmt/format.h>

#include <array>

#include "cursor.h"
#include "everyday_words.h"
#include "loomleaf/language/english.h"
#include "loomleaf/language/lexer.h"
#include "loomleaf/language/words.h"
#include "statement_parts.h"

namespace loomleaf {
namespace {

constexpr std::size_t largest_text = 16u << 20;
constexpr std::size_t most_statements = 500'000;

class DocumentReader {
 public:
  explicit DocumentReader(const SourceText& source)
      : reading_{source, document_.complaints}, lexer_(source, document_.complaints) {}

  Document read() {
    auto raw = lexer_.next();
    while (raw && !full()) {
      auto following = lexer_.next();
      while (following && continues(*raw, *following)) {
        complain_margin(*following);
        append(*raw, std::move(*following));
        following = lexer_.next();
      }
      read_statement(std::move(*raw));
      raw = std::move(following);
    }
    check_declares();
    sort_by_place(document_.complaints);
    return std::move(document_);
  }

 private:
  bool full() {
    if (document_.complaints.size() > Lexer::most_complaints) {
      document_.complaints.back().message =
          fmt::format("more than {} complaints: reading stops here", Lexer::most_complaints);
      document_.complaints.back().write.clear();
      return true;
    }
    if (document_.statements.size() < most_statements) return false;
    complain(document_.statements.back().span, fmt::format("a plan has at most {} statements", most_statements), {});
    return true;
  }

  void complain(Span span, std::string message, std::string write) {
    document_.complaints.push_back({span, std::move(message), std::move(write), {}});
  }

  // A line at the margin that begins like a property, or stands below a comma, was meant to go on with the statement.
  static bool continues(const RawStatement& above, const RawStatement& raw) {
    const Token& first = raw.tokens.front();
    if (raw.damaged) return false;
    if (first.kind != Token::Kind::word) return true;
    const std::string word = lower_case(first.text);
    if (find_keyword(word)) return false;
    return is_property_word(word) || find_colour(word) || above.tokens.back().kind == Token::Kind::comma;
  }

  void complain_margin(const RawStatement& raw) {
    const Span first = raw.tokens.front().span;
    complain(first,
             fmt::format("`{}` begins no statement; a line that goes on with the one above begins with a space",
                         reading_.source.text(first)),
             "  " + std::string(reading_.source.text(join(first, raw.tokens.back().span))));
  }

  static void append(RawStatement& raw, RawStatement&& more) {
    raw.damaged = raw.damaged || more.damaged;
    for (Token& token : more.tokens) raw.tokens.push_back(std::move(token));
  }

  void read_statement(RawStatement raw) {
    const Token first = raw.tokens.front();
    const auto keyword = keyword_of(raw);
    if (!keyword) {
      for (const Token& token : raw.tokens)
        if (token.kind == Token::Kind::word) document_.lost_words.push_back(token.text);
      return;
    }
    const std::size_t complaints_before = document_.complaints.size();
    Cursor cursor(std::move(raw), reading_);
    Statement statement;
    statement.keyword = *keyword;
    statement.span = cursor.whole();
    cursor.skip();
    read_head(cursor, statement);
    read_properties(cursor, statement);
    check_statement(cursor, statement);
    statement.troubled =
        cursor.troubled() || document_.complaints.size() != complaints_before || !find_keyword(lower_case(first.text));
    if (check_only_one(statement)) document_.statements.push_back(std::move(statement));
  }

  // The statement's keyword; of one with a slip in it, the one that is meant.
  std::optional<Keyword> keyword_of(const RawStatement& raw) {
    const Token& first = raw.tokens.front();
    const std::string word = lower_case(first.text);
    if (first.kind == Token::Kind::word)
      if (const auto keyword = find_keyword(word)) return keyword;
    if (raw.damaged) return std::nullopt;
    if (is_reserved_for_later(word)) {
      complain(first.span, fmt::format("`{}` is kept for a later version of the language", first.text), {});
      return std::nullopt;
    }
    if (const EverydayWord* everyday = find_everyday_word(word)) {
      complain(first.span, fmt::format("`{}` begins no statement", first.text), std::string(everyday->write));
      return everyday->keyword;
    }
    const auto near = nearest(word, keyword_names());
    complain(first.span, fmt::format("`{}` begins no statement", first.text), near.value_or(one_of(keyword_names())));
    return near ? find_keyword(*near) : std::nullopt;
  }

  // A plan has one `plan`, one `system` and one `default` of each kind.
  bool check_only_one(const Statement& statement) {
    std::optional<Span>* slot = nullptr;
    if (statement.keyword == Keyword::plan) slot = &plan_;
    if (statement.keyword == Keyword::system) slot = &system_;
    if (statement.keyword == Keyword::default_ && !statement.ids.empty())
      slot = statement.ids.front().id == "cable" ? &default_cable_ : &default_wire_;
    if (slot == nullptr) return true;
    if (!*slot) {
      *slot = statement.span;
      return true;
    }
    Complaint complaint{statement.span,
                        fmt::format("a second `{}`", title_of(statement)),
                        "one statement with the properties of both",
                        {}};
    complaint.also = Complaint::Also{**slot, "the first is here"};
    document_.complaints.push_back(std::move(complaint));
    return false;
  }

  void check_declares() {
    for (const Statement& statement : document_.statements)
      if (statement.keyword >= Keyword::source || statement.keyword == Keyword::place ||
          statement.keyword == Keyword::leg)
        return;
    if (document_.complaints.empty())
      complain({0, 0}, "this plan declares nothing", "source BAT \"House battery\" 12.8 V 100 Ah");
  }

  Document document_;
  Reading reading_;
  Lexer lexer_;
  std::optional<Span> plan_, system_, default_wire_, default_cable_;
};

}  // namespace

Document read_document(const SourceText& source) {
  const bool utf16 = source.text().starts_with("\xFF\xFE") || source.text().starts_with("\xFE\xFF");
  if (utf16) {
    Document document;
    document.complaints.push_back({{0, 1}, "this text is UTF-16", "the same text, saved as UTF-8", {}});
    return document;
  }
  if (source.text().size() <= largest_text) return DocumentReader(source).read();
  Document document;
  document.complaints.push_back(
      {{0, 0}, fmt::format("a plan has at most {} MB of text", largest_text >> 20), "several plans", {}});
  return document;
}

}  // namespace loomleaf
