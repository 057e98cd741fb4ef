#include <fmt/format.h>

#include "compound_values.h"
#include "loomleaf/language/english.h"
#include "measure.h"
#include "names.h"
#include "statement_parts.h"

namespace loomleaf {
namespace {

using Kind = Token::Kind;

// A name that a new item of this kind might have, for `write:`.
std::string_view usual_name(Keyword keyword) {
  switch (keyword) {
    case Keyword::place:
      return "LOCKER";
    case Keyword::source:
      return "BAT";
    case Keyword::fuse:
      return "F1";
    case Keyword::breaker:
      return "CB1";
    case Keyword::switch_:
      return "S1";
    case Keyword::shunt:
      return "SH1";
    case Keyword::dimmer:
      return "D1";
    case Keyword::relay:
      return "R1";
    case Keyword::converter:
      return "CV1";
    case Keyword::splice:
      return "SP1";
    case Keyword::bus:
      return "NB";
    case Keyword::connector:
      return "X1";
    case Keyword::chassis:
      return "CH";
    case Keyword::tail:
      return "T1";
    case Keyword::load:
      return "LA1";
    case Keyword::cable:
      return "C1";
    default:
      return "W1";
  }
}

// The statement's own names. A property's word in their stead means that the name was forgotten.
void read_own_names(Cursor& cursor, Statement& statement) {
  const std::string keyword(name_of(statement.keyword));
  const bool number_first = cursor.at(Kind::number) && cursor.at(Kind::word, 1) && cursor.peek(1).glued &&
                            find_unit(cursor.peek(1).text) == nullptr;
  if (number_first) {  // 4LA
    read_name(cursor, with_article(keyword));
    return cursor.mute();
  }
  const bool forgotten = !cursor.at(Kind::word) ||
                         !find_properties(cursor.peek().text, property_set(statement)).empty() || cursor.at_word("to");
  if (forgotten) {
    cursor.complain(cursor.last().span, fmt::format("{} needs a name", with_article(keyword)),
                    fmt::format("{} {}", keyword, usual_name(statement.keyword)));
    cursor.mute();
    return;
  }
  statement.ids = read_names(cursor, with_article(keyword));
  if (statement.ids.empty()) cursor.mute();
}

void read_default_kind(Cursor& cursor, Statement& statement) {
  if (cursor.at_word("wire") || cursor.at_word("cable")) {
    const Token kind = cursor.take();
    statement.ids.push_back({lower_case(kind.text), kind.span});
    return;
  }
  cursor.complain(cursor.last().span, "`default` is for all wires or for all cables", "default wire");
  cursor.mute();
}

// ROOF, ROOF at 0.3 m
void read_leg_end(Cursor& cursor, Statement& statement) {
  if (!cursor.at_free_word()) {
    cursor.complain(cursor.last().span, "a leg runs from a place to a place", "leg LOCKER to WALL 1.6 m");
    return cursor.mute();
  }
  auto place = read_name(cursor, "a place");
  if (!place) return cursor.mute();
  Position end{std::move(*place), {}, {}};
  const bool at_number = cursor.at_word("at") && cursor.at(Kind::number, 1);
  if (at_number) {
    cursor.skip();
    end.offset = read_length(cursor, "at", 0, 10'000);
  }
  statement.leg_ends.push_back(std::move(end));
}

// [ID] ["description"] PLACE to PLACE
void read_leg(Cursor& cursor, Statement& statement) {
  const bool own_name = cursor.at(Kind::word) && !cursor.at_word("to", 1) && !cursor.at_word("at", 1) &&
                        (cursor.at(Kind::word, 1) || cursor.at(Kind::text, 1));
  if (own_name) {
    if (auto name = read_name(cursor, "a leg")) statement.ids.push_back(std::move(*name));
  }
  if (cursor.at(Kind::text)) {
    const Token text = cursor.take();
    statement.description = text.text;
    statement.description_span = text.span;
  }
  read_leg_end(cursor, statement);
  if (cursor.troubled()) return;
  if (!cursor.take_word("to")) {
    cursor.complain(cursor.last().span, "a leg runs from a place to a place",
                    fmt::format("leg {} to WALL", statement.leg_ends.front().place.id));
    return cursor.mute();
  }
  read_leg_end(cursor, statement);
}

// RULE on IDs
void read_acceptance(Cursor& cursor, Statement& statement) {
  constexpr std::string_view example = "accept voltage-drop on LA1 \"seen and measured\"";
  if (!cursor.at(Kind::word) || cursor.at_word("on")) {
    cursor.complain(cursor.last().span, "`accept` needs the name of a finding", std::string(example));
    return cursor.mute();
  }
  const Token rule = cursor.take();
  statement.ids.push_back({lower_case(rule.text), rule.span});
  if (!cursor.take_word("on") || !cursor.at(Kind::word)) {
    cursor.complain(cursor.last().span, "`accept` needs `on` and what it is said of",
                    fmt::format("accept {} on LA1 \"seen and measured\"", lower_case(rule.text)));
    return cursor.mute();
  }
  statement.subjects = read_names(cursor, "an item or conductor", Dotted::yes);
  if (statement.subjects.empty()) cursor.mute();
}

}  // namespace

void read_head(Cursor& cursor, Statement& statement) {
  switch (statement.keyword) {
    case Keyword::plan:
    case Keyword::system:
    case Keyword::spool:
      return;
    case Keyword::default_:
      return read_default_kind(cursor, statement);
    case Keyword::leg:
      return read_leg(cursor, statement);
    case Keyword::accept:
      return read_acceptance(cursor, statement);
    default:
      return read_own_names(cursor, statement);
  }
}

KeywordSet property_set(const Statement& statement) {
  if (statement.keyword != Keyword::default_) return one(statement.keyword);
  const bool cable = !statement.ids.empty() && statement.ids.front().id == "cable";
  return one(cable ? Keyword::cable : Keyword::wire);
}

std::string title_of(const Statement& statement) {
  std::string title(name_of(statement.keyword));
  if (!statement.ids.empty()) title += ' ' + statement.ids.front().id;
  return title;
}

}  // namespace loomleaf
