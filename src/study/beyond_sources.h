// What a series link feeds: the devices that stand behind the sources whose - it ends at.
#pragma once

#include <optional>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "stretch.h"

namespace loomleaf {

// Of several devices the one of the greatest rating. Of two that are alike the name decides, so that the order in the
// plan does not.
struct LargestDevice {
  std::optional<ItemId> item;
  Current rating{};

  void count(const Plan& plan, ItemId device);  // one without a rating does not count
  void count(const Plan& plan, const LargestDevice& other);
};

// For each node of the exposed network: the largest device that is reached from there through a source whose - is
// joined at it, from that source's + along exposed conductors and contacts, and so on through further sources. What
// flows in the link of a series bank flows on through the bank: a fault beyond it is held by that device alone.
IndexedList<NodeOf, LargestDevice> devices_beyond_sources(const Plan& plan, const Circuit& circuit,
                                                          const ExposedNetwork& exposed);

}  // namespace loomleaf
