// A wire's or cable's statement together with the `default` of its kind.
#pragma once

#include <initializer_list>
#include <optional>

#include "properties.h"

namespace loomleaf {

class WithDefault {
 public:
  WithDefault(const Statement& own, const Statement* fallback) : own_(own), fallback_(fallback) {}

  const Statement& own() const { return own_; }
  const Statement* fallback() const { return fallback_; }

  // The statement that says one of these, which are ways to say one thing: the own one first. Nothing where neither
  // does.
  const Statement* saying(std::initializer_list<PropertyKind> kinds) const {
    for (const Statement* statement : {&own_, fallback_})
      for (const PropertyKind kind : kinds)
        if (statement != nullptr && loomleaf::says(*statement, kind)) return statement;
    return nullptr;
  }
  bool says(PropertyKind kind) const { return saying({kind}) != nullptr; }

  template <class T>
  std::optional<T> given(PropertyKind kind) const {
    const Statement* statement = saying({kind});
    return statement == nullptr ? std::nullopt : loomleaf::given<T>(*statement, kind);
  }

 private:
  const Statement& own_;
  const Statement* fallback_;
};

}  // namespace loomleaf
