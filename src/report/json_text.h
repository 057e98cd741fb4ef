// An object of JSON written member by member, indented by two, so that a long list never stands in memory as a whole.
#pragma once

#include <ostream>
#include <string>

#include "json_values.h"

namespace loomleaf {

class JsonText {
 public:
  explicit JsonText(std::ostream& out) : out_(out) { out_ << '{'; }
  void add(const char* key, const Json& value);
  void begin_list(const char* key);
  void add_entry(const Json& entry);
  void end_list();
  void finish();

 private:
  void begin_member(const char* key);
  void begin_line(std::size_t depth);
  void write(const Json& value, std::size_t depth);

  std::ostream& out_;
  bool is_first_ = true, is_first_entry_ = true;
};

}  // namespace loomleaf
