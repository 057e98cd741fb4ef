// An object of JSON written member by member, so that a long list never stands in memory as a whole.
#pragma once

#include <string>

#include "json_values.h"

namespace loomleaf {

class JsonText {
 public:
  void add(const char* key, const Json& value);
  void begin_list(const char* key);
  void add_entry(const Json& entry);
  void end_list();
  std::string finish();  // indented by two, as if written in one go

 private:
  void begin_member(const char* key);
  void write(const Json& value, std::size_t depth);

  std::string text_ = "{";
  bool is_first_ = true, is_first_entry_ = true;
};

}  // namespace loomleaf
