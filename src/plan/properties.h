// What a statement says under a property, with its type.
#pragma once

#include <optional>
#include <string>

#include "loomleaf/language/statement.h"

namespace loomleaf {

const Property* find_property(const Statement& statement, PropertyKind kind);  // the first of its kind

inline bool says(const Statement& statement, PropertyKind kind) { return find_property(statement, kind) != nullptr; }

// The value under a property; nothing where the statement does not have it, or says `auto` there.
template <class T>
const T* value_of(const Statement& statement, PropertyKind kind) {
  const Property* property = find_property(statement, kind);
  return property == nullptr ? nullptr : std::get_if<T>(&property->value);
}

template <class T>
std::optional<T> given(const Statement& statement, PropertyKind kind) {
  const T* value = value_of<T>(statement, kind);
  return value == nullptr ? std::nullopt : std::optional<T>(*value);
}

std::string text_under(const Statement& statement, PropertyKind kind);  // empty where not said

// Where a statement is pointed at as a whole: its name, else its first word.
Span name_span(const Statement& statement);

}  // namespace loomleaf
