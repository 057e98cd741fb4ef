#include <sstream>

#include "loomleaf/sheets/label_sheets.h"

namespace loomleaf {
namespace {

void add_part(LabelText& text, const char* what, const std::string& before, const std::string& said) {
  if (!said.empty()) text.parts.push_back({what, before + said});
}

// Word by word, so that it can be broken into lines.
void add_words(LabelText& text, const std::string& said) {
  std::istringstream words(said);
  for (std::string word; words >> word;) text.parts.push_back({"the word `" + word + "`", word});
}

}  // namespace

std::vector<LabelText> texts_of(const std::vector<Label>& labels, const LabelStock& stock) {
  std::vector<LabelText> texts;
  for (const Label& label : labels) {
    LabelText text;
    text.id = label.id;
    text.end = label.at_from_end ? "from" : "to";
    text.place = label.place;
    text.outside = label.outside;
    add_part(text, "the far end",
             !stock.goes_round() ? "to "
             : label.at_from_end ? "\xE2\x86\x92 "
                                 : "\xE2\x86\x90 ",
             label.far_end);
    add_part(text, "where this end lands", "at ", label.lands_at);
    add_part(text, "the fuse", "", label.fuse);
    add_part(text, "the size", "", label.size);
    texts.push_back(std::move(text));
  }
  return texts;
}

std::vector<LabelText> texts_of(const std::vector<Legend>& legends) {
  std::vector<LabelText> texts;
  for (const Legend& legend : legends) {
    LabelText text;
    text.id = legend.id;
    text.place = legend.place;
    text.between = " ";
    text.together = 0;
    add_words(text, legend.name);
    texts.push_back(std::move(text));
  }
  return texts;
}

std::vector<LabelText> texts_of(const std::vector<FuseRow>& fuses) {
  std::vector<LabelText> texts;
  for (const FuseRow& fuse : fuses) {
    LabelText text;
    text.id = fuse.id;
    text.between = " ";
    text.together = 1;
    add_part(text, "the rating", "", fuse.rating);
    add_words(text, fuse.feeds);
    texts.push_back(std::move(text));
  }
  return texts;
}

}  // namespace loomleaf
