// What a part of several poles leaves under voltage when it opens.
#pragma once

#include <optional>
#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

class LeftLive {
 public:
  explicit LeftLive(const Checked& checked);

  // With all poles of this pole's item open: the first load, coil or converter's input that the pole, lying in the
  // return, parts from its supply while that supply's + still reaches it. Nothing where all that hangs on the pole goes
  // dead with it. `ways`: a standing of the changeovers in which the pole conducts.
  std::optional<ItemId> behind(BranchId pole, std::size_t ways) const;

 private:
  struct Consumer {
    ItemId item;
    NodeId plus, minus;
  };
  // What is reached from a node by and by.
  struct Walk {
    IndexedList<NodeOf, bool> seen;
    std::vector<NodeId> order;
    std::size_t next = 0;
    bool is_done() const { return next == order.size(); }
  };
  struct Opened {
    ItemId item;
    const Ways& ways;
    const Sides& sides;
  };
  void add(ItemId item, NodeId plus, NodeId minus);
  Walk begin() const;
  void enter(Walk& walk, NodeId node) const;
  void step(Walk& walk, const Opened& opened) const;
  bool has_minus(const Walk& walk, NodeId in_part_of, const Sides& sides) const;
  std::optional<ItemId> first_live(const Walk& parted, NodeId pole, const Opened& opened) const;

  const Checked& checked_;
  std::vector<Consumer> consumers_;
  IndexedList<NodeOf, std::vector<std::size_t>> at_;  // positions in consumers_
};

}  // namespace loomleaf
