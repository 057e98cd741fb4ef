// Of all shorts that last too long the worst for each subject.
#pragma once

#include <algorithm>
#include <map>
#include <vector>

#include "loomleaf/study/short_circuit.h"

namespace loomleaf {

// Of a list that is told nobody reads more.
inline constexpr std::size_t kMostTold = 50;

template <class Id>
void add_sorted(std::vector<Id>& list, Id id) {
  const auto at = std::lower_bound(list.begin(), list.end(), id);
  if (at != list.end() && *at == id) return;
  list.insert(at, id);
  if (list.size() > kMostTold) list.pop_back();
}

class WorstLasting {
 public:
  // Of two that are alike all places, devices and ways are told.
  void take(const LastingShort& found);
  // In the plan's order of subjects.
  std::vector<LastingShort> all() const;

 private:
  // Which of two about one subject is worse: above nought the first, below the second.
  static int compare(const LastingShort& a, const LastingShort& b);

  std::map<ConductorId, LastingShort> by_subject_;
};

}  // namespace loomleaf
