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
  out_ << '[';
  is_first_entry_ = true;
}

void JsonText::add_entry(const Json& entry) {
  if (!is_first_entry_) out_ << ',';
  is_first_entry_ = false;
  begin_line(2);
  write(entry, 2);
}

void JsonText::end_list() {
  if (!is_first_entry_) begin_line(1);
  out_ << ']';
}

void JsonText::finish() { out_ << "\n}\n"; }

void JsonText::begin_member(const char* key) {
  if (!is_first_) out_ << ',';
  is_first_ = false;
  begin_line(1);
  out_ << Json(key) << ": ";
}

void JsonText::begin_line(std::size_t depth) { out_ << '\n' << std::string(depth * indent, ' '); }

// Bytes that are no UTF-8 reach this only inside complaints about them: they are replaced. A line break in a text is
// written as an escape, so that each one here is the layout's.
void JsonText::write(const Json& value, std::size_t depth) {
  const std::string text = value.dump(indent, ' ', false, Json::error_handler_t::replace);
  std::size_t begin = 0;
  for (std::size_t end; (end = text.find('\n', begin)) != std::string::npos; begin = end + 1) {
    out_.write(text.data() + begin, static_cast<std::streamsize>(end - begin));
    begin_line(depth);
  }
  out_.write(text.data() + begin, static_cast<std::streamsize>(text.size() - begin));
}

}  // namespace loomleaf
