// The feed side cut at its devices: which pieces are the last before the loads, in one standing of the changeovers.
#pragma once

#include <optional>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

// A segment is what conducts without passing a device. Those that form one final circuit share a label.
class CircuitSegments {
 public:
  CircuitSegments(const Plan& plan, const Circuit& circuit, const Ways& ways, const Sides& sides);

  // The label of the final circuit that a node on the feed side lies in.
  std::optional<std::size_t> label_at(NodeId node) const { return label_[segment_of_[node.value]]; }
  // Devices that feed it, by label.
  const std::vector<BranchId>& devices_of(std::size_t label) const { return devices_[label]; }
  std::size_t label_count() const { return devices_.size(); }

 private:
  struct Door {
    BranchId device;
    std::size_t to;
  };
  void find_segments();
  void measure_distances();
  void spread(const std::vector<std::size_t>& roots);
  void find_beyond();
  void give_labels();
  bool is_spare(const Branch& device) const;

  const Plan& plan_;
  const Circuit& circuit_;
  const Ways& ways_;
  const Sides& sides_;
  std::vector<std::size_t> segment_of_;   // by node
  std::vector<std::vector<Door>> doors_;  // devices between segments
  std::vector<std::vector<std::size_t>> through_,
      behind_;                                        // by converters: to their output's, to their input's segment
  std::vector<std::optional<std::size_t>> distance_;  // devices between here and the supply
  std::vector<std::size_t> order_;                    // segments, nearest first
  std::vector<bool> has_beyond_;
  std::vector<std::optional<std::size_t>> label_;
  std::vector<std::vector<BranchId>> devices_;
};

}  // namespace loomleaf
