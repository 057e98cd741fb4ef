// Which way round an item lies.
#pragma once

#include <set>
#include <utility>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/sides.h"

namespace loomleaf {

// Sources, dimmers, converters, `electronic` and `constant-current` loads work one way round alone.
bool is_polarised(const Item& item);

// Finds items that are wired + to -, in one standing of the changeovers.
class Polarity {
 public:
  Polarity(const Plan& plan, const Circuit& circuit, const Sides& sides);

  // A polarised item whose + lies on the return side alone and whose - on the feed side alone, its own terminals not
  // counted. A dimmer or converter is reversed where its input or its output is; a source only where another supply stands
  // across it the other way round: in the middle of a bank its neighbours' poles meet it like that. Or where it stands
  // against its row.
  bool is_reversed(ItemId item) const;
  // A source whose chain joins others with like poles: + to the + of one alone, and - to the - of another alone; or does
  // so at one end, while at the other nothing but the other pole of polarised loads meets it.
  bool stands_against_its_row(ItemId source) const { return against_.count(source) > 0; }

 private:
  struct Ends {
    std::size_t plus = 0, minus = 0;                            // of sources and converters' outputs
    std::size_t user_plus = 0, user_minus = 0, other_user = 0;  // of what is polarised; of what is not
    std::size_t users() const { return user_plus + user_minus + other_user; }
  };
  bool is_reversed(ItemId item, TerminalRole plus, TerminalRole minus) const;
  Ends ends_at(NodeId node, const Item& but) const;
  void count_users();
  void find_chains_against_their_rows();

  const Plan& plan_;
  const Circuit& circuit_;
  const Sides& sides_;
  IndexedList<PartOf, Ends> ends_;
  std::set<ItemId> against_;
  std::set<std::pair<PartId, PartId>> across_;  // + and - of each supply, a chain as a whole too
};

}  // namespace loomleaf
