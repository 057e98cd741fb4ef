// A plan while it is being built, with what the steps share.
#pragma once

#include <optional>
#include <string>
#include <unordered_set>
#include <vector>

#include "loomleaf/plan/plan.h"
#include "name_table.h"

namespace loomleaf {

struct Draft {
  Draft(const Document& document, const SourceText& source, const KnownNames& known);

  const Document& document;
  const SourceText& source;
  const KnownNames& known;
  Plan plan;
  NameTable names;
  IndexedList<ItemOf, const Statement*> statement_of;  // each item's statement
  std::vector<Complaint> complaints;

  void complain(Span span, std::string message, std::string write, std::optional<Complaint::Also> also = std::nullopt);

  // Gives the name to `what`; a name that is taken is complained of.
  void declare(const Name& name, Named what);

  // The name was declared by a statement of which there is a complaint already, and stands for nothing: that it is not
  // declared goes without saying. So it is with the words of lines that could not be read at all.
  void forgive(const std::string& id) { forgiven_.insert(id); }
  bool is_forgiven(const std::string& id) const { return forgiven_.contains(id); }

 private:
  std::unordered_set<std::string> forgiven_;
};

// The thing of this name, if it is of that type; else a complaint that offers the nearest name of one.
std::optional<ItemId> find_item(Draft& draft, const TerminalName& name);
std::optional<PlaceId> find_place(Draft& draft, const Name& name);
std::optional<std::variant<PlaceId, LegId>> find_place_or_leg(Draft& draft, const Name& name);
bool find_subject(Draft& draft, const Name& name);  // anything a finding can be about

// "a, b and c"; of a long list the first few, and how many more.
std::string enumerate(const std::vector<std::string>& words, std::string_view last_joiner = "and");

}  // namespace loomleaf
