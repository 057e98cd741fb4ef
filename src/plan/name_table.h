// The one set of names that items, conductors, places and legs share.
#pragma once

#include <string>
#include <unordered_map>
#include <variant>
#include <vector>

#include "loomleaf/plan/plan.h"

namespace loomleaf {

using Named = std::variant<ItemId, RunId, ConductorId, PlaceId, LegId>;

struct Declared {
  Named what;
  Span span;
};

class NameTable {
 public:
  // The earlier declaration where the name is taken, which then stands.
  const Declared* declare(const std::string& id, Named what, Span span);
  const Declared* find(const std::string& id) const;

  // Names in order of declaration of the things that an ID of one of these types stands for.
  template <class... Ids>
  std::vector<std::string> names_of() const {
    std::vector<std::string> names;
    for (const std::string* id : in_order_)
      if ((std::holds_alternative<Ids>(by_id_.at(*id).what) || ...)) names.push_back(*id);
    return names;
  }
  bool empty() const { return in_order_.empty(); }

 private:
  std::unordered_map<std::string, Declared> by_id_;
  std::vector<const std::string*> in_order_;
};

}  // namespace loomleaf
