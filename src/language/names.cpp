#include "names.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "loomleaf/language/utf8.h"
#include "loomleaf/language/words.h"

namespace loomleaf {
namespace {

using Kind = Token::Kind;

constexpr std::size_t longest_range = 10'000;
constexpr std::size_t longest_id = 60;  // bytes; longer ones fit no label

// A word taken apart: the item, and the terminal behind a dot or as a trailing sign.
struct Parts {
  std::string item, terminal;
};

Parts take_apart(const std::string& word) {
  const std::size_t dot = word.find('.');
  if (dot != std::string::npos) return {word.substr(0, dot), word.substr(dot + 1)};
  const bool signed_end = word.size() > 1 && (word.back() == '+' || word.back() == '-');
  if (!signed_end) return {word, ""};
  return {word.substr(0, word.size() - 1), word.substr(word.size() - 1)};
}

bool all_of_id(std::string_view word, bool letter_first) {
  for (std::size_t at = 0; at < word.size();) {
    const Character c = character_at(word, at);
    const bool digit = c.code >= '0' && c.code <= '9';
    const bool inner = at > 0 && (c.code == '_' || c.code == '-');
    const bool good = is_letter(c.code) || (digit && (at > 0 || !letter_first)) || inner;
    if (!good) return false;
    at += c.size;
  }
  return !word.empty() && word.back() != '-';
}

bool is_terminal(std::string_view word) {
  if (word == "+" || word == "-") return true;
  if (word.ends_with('+') || word.ends_with('-')) word.remove_suffix(1);
  return std::ranges::all_of(word,
                             [](char c) {
                               return c == '.' || (c & 0x80) != 0 || all_of_id({&c, 1}, false) || c == '_' || c == '-';
                             }) &&
         !word.empty() && word.front() != '.' && word.back() != '.';
}

// What to write instead of a word that cannot be an ID: its letters and digits.
std::string mended_id(std::string_view word) {
  std::string id;
  for (std::size_t at = 0; at < word.size();) {
    const Character c = character_at(word, at);
    at += c.size;
    const bool digit = c.code >= '0' && c.code <= '9';
    if (is_letter(c.code) || (digit && !id.empty())) append_character(id, c.code);
    if (c.code == '_' && !id.empty()) id.push_back('_');
  }
  if (!id.empty() && is_reserved(id)) id += '1';
  return id.size() > longest_id ? "" : id;
}

bool check_id(Cursor& cursor, const std::string& id, Span span, std::string_view what) {
  if (id.empty()) {
    cursor.complain(span, fmt::format("`{}` lacks the item before the dot", cursor.source(span)), {});
    return false;
  }
  if (id.size() > longest_id) {
    cursor.complain(span, fmt::format("this name has more than {} letters", longest_id),
                    "a short name that fits on a label");
    return false;
  }
  if (!all_of_id(id, true)) {
    cursor.complain(
        span,
        fmt::format("`{}` cannot name {}: a name is a letter, then letters, digits, `_` or an inner `-`", id, what),
        mended_id(id));
    return false;
  }
  if (is_reserved(id)) {
    cursor.complain(span, fmt::format("`{}` is a word of the language and cannot name {}", id, what), id + "1");
    return false;
  }
  return true;
}

// LA4 taken apart to LA and 4.
struct Numbered {
  std::string stem, digits;
};

Numbered split_number(const std::string& id) {
  std::size_t at = id.size();
  while (at > 0 && id[at - 1] >= '0' && id[at - 1] <= '9') --at;
  return {id.substr(0, at), id.substr(at)};
}

unsigned long number_of(const std::string& digits) {
  unsigned long value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

// The IDs from first to last; nothing, with a complaint, where they make no range.
std::vector<std::string> open_range(Cursor& cursor, const std::string& first, const std::string& last, Span span) {
  const Numbered a = split_number(first), b = split_number(last);
  if (a.digits.empty() || b.digits.empty() || a.stem != b.stem) {
    cursor.complain(
        span,
        fmt::format("a range runs between two names that differ in the number at their end, and `{}` and `{}` do not",
                    first, last),
        a.digits.empty() ? first + "1.." + first + "4"
                         : fmt::format("{}..{}{}", first, a.stem, b.digits.empty() ? a.digits : b.digits));
    return {};
  }
  if (a.digits.size() != b.digits.size()) {
    const std::size_t width = std::max(a.digits.size(), b.digits.size());
    const auto padded = [&](const Numbered& n) {
      return n.stem + std::string(width - n.digits.size(), '0') + n.digits;
    };
    cursor.complain(
        span, fmt::format("the numbers of a range have as many digits each, and `{}` and `{}` do not", first, last),
        width > 9 ? "" : padded(a) + ".." + padded(b));
    return {};
  }
  if (a.digits.size() > 9) {
    cursor.complain(span, "a number in a range has at most nine digits", {});
    return {};
  }
  const unsigned long from = number_of(a.digits), to = number_of(b.digits);
  if (from > to) {
    cursor.complain(span, fmt::format("the range from `{}` to `{}` runs backwards", first, last), last + ".." + first);
    return {};
  }
  const std::size_t count = to - from + 1;
  if (count > longest_range) {
    cursor.complain(span, fmt::format("this range stands for {} names; {} are the most", count, longest_range),
                    "a shorter range");
    return {};
  }
  if (!cursor.may_open(count, span)) return {};
  std::vector<std::string> ids;
  ids.reserve(count);
  for (std::size_t k = 0; k < count; ++k) ids.push_back(fmt::format("{}{:0{}}", a.stem, from + k, a.digits.size()));
  return ids;
}

// The last name of a range, behind its dots.
std::optional<Token> take_range_end(Cursor& cursor, const Parts& first) {
  const Span dots = cursor.take().span;
  if (cursor.at(Kind::number)) {
    const Token number = cursor.take();
    cursor.complain(number.span, "the last name of a range is written in full",
                    split_number(first.item).stem + number.text);
    return std::nullopt;
  }
  if (!cursor.at(Kind::word)) {
    cursor.complain(dots, "a range needs its last name", first.item + ".." + split_number(first.item).stem + "9");
    return std::nullopt;
  }
  return cursor.take();
}

struct Written {
  std::vector<std::string> items;
  std::string terminal;
  Span span;
};

// One member of a list: a name or a range, with a terminal or without; its items are checked.
std::optional<Written> read_member(Cursor& cursor, std::string_view what) {
  const Token word = cursor.take();
  const Parts first = take_apart(word.text);
  Written written{{first.item}, first.terminal, word.span};
  if (cursor.at(Kind::dots)) {
    const auto last_word = take_range_end(cursor, first);
    if (!last_word) return std::nullopt;
    const Parts last = take_apart(last_word->text);
    written.span = join(word.span, last_word->span);
    written.terminal = last.terminal;
    if (!first.terminal.empty() && first.terminal != last.terminal) {
      cursor.complain(written.span, "a range runs over items, not over the terminals of one",
                      "each terminal by itself, a comma between");
      return std::nullopt;
    }
    if (!check_id(cursor, first.item, word.span, what) || !check_id(cursor, last.item, last_word->span, what))
      return std::nullopt;
    written.items = open_range(cursor, first.item, last.item, written.span);
    if (written.items.empty()) return std::nullopt;
  } else if (!check_id(cursor, first.item, word.span, what)) {
    return std::nullopt;
  }
  if (!written.terminal.empty() && !is_terminal(written.terminal)) {
    cursor.complain(written.span, fmt::format("`{}` cannot be a terminal", written.terminal), {});
    return std::nullopt;
  }
  return written;
}

// Steps over the comma to the next member of a list; false where the list ends. A comma may also part two properties.
bool next_in_list(Cursor& cursor) {
  if (!cursor.at(Kind::comma)) return false;
  if (cursor.left() == 1) return false;
  const bool goes_on = cursor.at_free_word(1);
  if (goes_on) cursor.skip();
  return goes_on;
}

}  // namespace

bool looks_like_id(std::string_view word) { return all_of_id(word, true); }

std::string range_text(const std::string& first, std::size_t count) {
  const Numbered parts = split_number(first);
  const unsigned long from = parts.digits.empty() ? 1 : number_of(parts.digits);
  return fmt::format("{0}{1:0{3}}..{0}{2:0{3}}", parts.stem, from, from + count - 1, parts.digits.size());
}

std::optional<Name> read_name(Cursor& cursor, std::string_view what) {
  const Token word = cursor.take_glued();
  if (!check_id(cursor, word.text, word.span, what)) return std::nullopt;
  return Name{word.text, word.span};
}

std::vector<Name> read_names(Cursor& cursor, std::string_view what, Dotted dotted) {
  std::vector<Name> names;
  do {
    auto written = read_member(cursor, what);
    if (!written) continue;
    if (!written->terminal.empty() && dotted == Dotted::no) {
      cursor.complain(written->span,
                      fmt::format("`{}` is a terminal; here stands the name of {}", cursor.source(written->span), what),
                      written->items.front());
      continue;
    }
    for (std::string& item : written->items) {
      if (!written->terminal.empty()) {
        const bool sign = written->terminal == "+" || written->terminal == "-";
        item += (sign ? "" : ".") + written->terminal;
      }
      names.push_back({std::move(item), written->span});
    }
  } while (next_in_list(cursor));
  return names;
}

std::optional<TerminalName> read_terminal(Cursor& cursor) {
  const Token word = cursor.take();
  Parts parts = take_apart(word.text);
  if (!check_id(cursor, parts.item, word.span, "an item")) return std::nullopt;
  if (!parts.terminal.empty() && !is_terminal(parts.terminal)) {
    cursor.complain(word.span, fmt::format("`{}` cannot be a terminal", parts.terminal), {});
    return std::nullopt;
  }
  return TerminalName{std::move(parts.item), std::move(parts.terminal), word.span};
}

EndList read_end(Cursor& cursor) {
  EndList end;
  end.span = cursor.peek().span;
  do {
    auto written = read_member(cursor, "an item");
    if (!written) continue;
    for (std::string& item : written->items)
      end.terminals.push_back({std::move(item), written->terminal, written->span});
    // `BAT +`: the sign belongs to the name before it
    const bool lone_sign = cursor.at_word("+") || cursor.at_word("-");
    if (!lone_sign) continue;
    const Token sign = cursor.take();
    cursor.complain(cursor.from(written->span), "a terminal is written without a space",
                    std::string(cursor.source(written->span)) + sign.text);
  } while (next_in_list(cursor));
  end.span = cursor.from(end.span);
  return end;
}

std::vector<Name> read_extra_names(Cursor& cursor) {
  std::vector<Name> names;
  do {
    const Token name = cursor.take_glued();
    if (is_terminal(name.text) && name.text.find('.') == std::string::npos)
      names.push_back({name.text, name.span});
    else
      cursor.complain(name.span, fmt::format("`{}` cannot be a terminal", name.text),
                      "letters and digits, as in also sense");
    const bool more =
        cursor.at(Kind::comma) && cursor.left() > 1 && (cursor.at(Kind::number, 1) || (cursor.at_free_word(1)));
    if (!more) break;
    cursor.skip();
  } while (!cursor.done());
  return names;
}

}  // namespace loomleaf
