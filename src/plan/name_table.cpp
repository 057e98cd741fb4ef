#include "name_table.h"

namespace loomleaf {

const Declared* NameTable::declare(const std::string& id, Named what, Span span) {
  const auto [place, is_new] = by_id_.try_emplace(id, Declared{what, span});
  if (!is_new) return &place->second;
  in_order_.push_back(&place->first);
  return nullptr;
}

const Declared* NameTable::find(const std::string& id) const {
  const auto place = by_id_.find(id);
  return place == by_id_.end() ? nullptr : &place->second;
}

}  // namespace loomleaf
