// Where a fuse for one conductor has in front of it all that can flow in.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

class FusePlaces {
 public:
  explicit FusePlaces(const Checked& checked);

  // "close to F1.out", or "in W5 close to PB" where that is at the conductor's own end. Nothing where fault current
  // comes from both sides, so that one fuse does not do.
  std::optional<std::string> of(ConductorId conductor) const;

  // Of a conductor that feeds nothing but tails, such as a spare core: "put a small fuse, 35 A at most, in W9 close to
  // PB, or take W9 off until it is used". Nothing for any other.
  std::optional<std::string> spare_text(ConductorId conductor) const;

 private:
  // What hangs together with some nodes without passing one branch or one other node, all contacts closed; no further
  // than to the first source's or converter's +.
  struct Region {
    std::vector<NodeId> nodes;
    std::set<BranchId> to_barred;  // branches that lead to the barred node
    bool is_fed = false;
  };
  Region region_of(const std::vector<NodeId>& from, std::optional<BranchId> without,
                   std::optional<NodeId> barred) const;
  bool all_comes_from(const Branch& conductor, NodeId node) const;
  std::optional<TerminalId> fed_end(ConductorId conductor) const;
  std::string in_its_lead(ConductorId conductor, TerminalId end) const;

  const Checked& checked_;
  IndexedList<NodeOf, bool> brings_, takes_, has_tail_;  // current, by sources and loads and the like
  bool any_tail_ = false;
};

}  // namespace loomleaf
