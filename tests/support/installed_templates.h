// The templates of the source tree, as an installation has them.
#pragma once

#include <gtest/gtest.h>

#include "loomleaf/stock/rulebook.h"
#include "loomleaf/stock/stock.h"

namespace loomleaf {

inline TemplateFolders installed_templates() { return {{LOOMLEAF_ROOT "/templates"}}; }

inline const Stock& installed_stock() {
  static const Loaded<Stock> loaded = load_stock(installed_templates());
  EXPECT_TRUE(loaded.errors.empty()) << loaded.errors.front().message;
  return loaded.value;
}

inline Rulebook installed_rulebook(std::string_view name) {
  Loaded<Rulebook> loaded = load_rulebook(installed_templates(), name);
  EXPECT_TRUE(loaded.errors.empty()) << loaded.errors.front().message;
  return std::move(loaded.value);
}

}  // namespace loomleaf
