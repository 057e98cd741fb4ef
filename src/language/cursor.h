// Walks over the tokens of one statement and collects what is wrong with it.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "loomleaf/language/complaint.h"
#include "loomleaf/language/lexer.h"
#include "loomleaf/language/source_text.h"

namespace loomleaf {

// What the reading of a whole document shares: where complaints go, and how many names ranges may still open.
struct Reading {
  const SourceText& source;
  std::vector<Complaint>& complaints;
  std::size_t may_open = 200'000;
};

class Cursor {
 public:
  Cursor(RawStatement statement, Reading& reading)
      : tokens_(std::move(statement.tokens)),
        reading_(reading),
        troubled_(statement.troubled),
        muted_(statement.damaged) {}

  bool done() const { return at_ >= tokens_.size(); }
  std::size_t left() const { return tokens_.size() - at_; }
  const Token& peek(std::size_t ahead = 0) const { return tokens_[at_ + ahead]; }  // needs ahead < left()
  const Token& last() const { return tokens_[at_ == 0 ? 0 : at_ - 1]; }            // the one taken last
  Token take() { return tokens_[at_++]; }
  void skip() { ++at_; }

  bool at(Token::Kind kind, std::size_t ahead = 0) const { return ahead < left() && peek(ahead).kind == kind; }
  bool at_word(std::string_view lower_case_word, std::size_t ahead = 0) const;
  bool at_free_word(std::size_t ahead = 0) const;    // a word that is no property word: a name, a colour
  bool take_word(std::string_view lower_case_word);  // steps over it if it is there

  // The tokens that are written together without a space, from here on, as one word: 2026-03-14, 87a.
  Token take_glued();

  Span whole() const { return join(tokens_.front().span, tokens_.back().span); }
  Span from(Span begin) const { return join(begin, last().span); }
  std::string_view source(Span span) const { return reading_.source.text(span); }

  void complain(Span span, std::string message, std::string write);
  void refuse(Span span, std::string message);  // the plan is out of the program's bounds
  void complain(Complaint complaint);
  void mute() { muted_ = troubled_ = true; }  // what follows would only be a consequence
  bool troubled() const { return troubled_; }

  // Takes `count` from what ranges may still open; false, with a complaint, where too little is left.
  bool may_open(std::size_t count, Span range);

 private:
  std::vector<Token> tokens_;
  Reading& reading_;
  std::size_t at_ = 0;
  bool troubled_;
  bool muted_;
};

}  // namespace loomleaf
