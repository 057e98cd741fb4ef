#include "json_text.h"

namespace loomleaf {

namespace {

constexpr std::size_t indent = 2;

}  // namespace

void JsonText::add(const char* key, const Json& value) {
  begin_member(key);
  write(value, 1);
}

void JsonText::begin_list(const char* key) {
  begin_member(key);
  text_ += '[';
  is_first_entry_ = true;
}

void JsonText::add_entry(const Json& entry) {
  if (!is_first_entry_) text_ += ',';
  is_first_entry_ = false;
  text_ += '\n';
  text_.append(2 * indent, ' ');
  write(entry, 2);
}

void JsonText::end_list() {
  if (!is_first_entry_) {
    text_ += '\n';
    text_.append(indent, ' ');
  }
  text_ += ']';
}

std::string JsonText::finish() {
  text_ += "\n}\n";
  return std::move(text_);
}

void JsonText::begin_member(const char* key) {
  if (!is_first_) text_ += ',';
  is_first_ = false;
  text_ += '\n';
  text_.append(indent, ' ');
  text_ += Json(key).dump() + ": ";
}

// Bytes that are no UTF-8 reach this only inside complaints about them: they are replaced. A line break in a text is
// written as an escape, so that each one here is the layout's.
void JsonText::write(const Json& value, std::size_t depth) {
  for (const char letter : value.dump(indent, ' ', false, Json::error_handler_t::replace)) {
    text_ += letter;
    if (letter == '\n') text_.append(depth * indent, ' ');
  }
}

}  // namespace loomleaf
