// The terminals that an item has, by what it is.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "loomleaf/plan/plan.h"

namespace loomleaf {

// An item's own terminals in order, without `also`: + and - of a load, in1..inn and out1..outn of a connector.
std::vector<Terminal> terminals_of(ItemId item, const ItemData& data);

// Finds terminals by name: as written first, then in any case.
class TerminalIndex {
 public:
  bool add(const Terminal& terminal, TerminalId id);  // false where the item has one of that name
  std::optional<TerminalId> find(ItemId item, std::string_view name) const;

 private:
  std::unordered_map<std::string, TerminalId> by_name_;
};

// What two terminals of an item conduct to each other, taken as a pair: a device's in and out, a pole's in and out, a
// dimmer's in+ and out+. Items `on` something have one too: a load's - and +.
std::optional<TerminalId> other_side(const Plan& plan, TerminalId terminal);

// The terminal by which an item of this kind can be `on` something; nothing for those that cannot.
std::optional<TerminalId> joining_terminal(const Plan& plan, const Item& item);

std::optional<TerminalId> terminal_of_role(const Plan& plan, const Item& item,
                                           TerminalRole role);  // the first of that role

// The names of an item's terminals, as one would write them: "F1.in", "BAT+".
std::vector<std::string> texts_of(const Plan& plan, const std::vector<TerminalId>& terminals);

}  // namespace loomleaf
