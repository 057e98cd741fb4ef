#include "properties.h"

#include <algorithm>

namespace loomleaf {

const Property* find_property(const Statement& statement, PropertyKind kind) {
  for (const Property& property : statement.properties)
    if (property.kind == kind) return &property;
  return nullptr;
}

std::string text_under(const Statement& statement, PropertyKind kind) {
  const std::string* text = value_of<std::string>(statement, kind);
  return text == nullptr ? std::string() : *text;
}

Span name_span(const Statement& statement) {
  if (!statement.ids.empty()) return statement.ids.front().span;
  const auto keyword_length = static_cast<std::uint32_t>(name_of(statement.keyword).size());
  return {statement.span.begin, std::min(statement.span.end, statement.span.begin + keyword_length)};
}

}  // namespace loomleaf
