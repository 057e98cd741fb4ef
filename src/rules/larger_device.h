// The next device that stays closed in normal work, and what it asks of the conductors behind it.
#pragma once

#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "loomleaf/rules/rule.h"
#include "trial.h"

namespace loomleaf {

// The loads whose surge the device's curve does not ride through, and those of which no curve tells it.
struct Surges {
  std::vector<ItemId> opening, not_judged;
};
Surges surges_of(const Checked& checked, ItemId device);

// What a device has to let pass in normal work: as it flows, and with what lasts counted with its factor.
struct WorkOfDevice {
  Current flows{}, raised{};
};
WorkOfDevice work_of(const Checked& checked, BranchId device);

// Whether a fuse or breaker opens in normal work.
bool opens_in_work(const Checked& checked, BranchId device);

class LargerDevices {
 public:
  explicit LargerDevices(const Checked& checked);

  // What flows through this device while the heaviest of its surges lasts, on top of all that flows anyway.
  Current highest_peak(ItemId item, Current flows) const;
  // "change F1 to 10 A, and make A1 14 AWG at least", tried: nothing that is a WARNING or more comes of it. `needed` is
  // what the device must let pass for long.
  std::string text(ItemId item, Current flows, Current needed);

 private:
  Current peak_of(ItemId load, Current flows) const;
  bool rides_through_surges(ItemId item, const Device& device, Current rating, Current flows) const;
  std::optional<Current> rating_that_stays_closed(ItemId item, const Device& device, Current flows,
                                                  Current needed) const;
  std::optional<std::vector<std::string>> thicker_with(ItemId item, Current rating);
  bool is_harmless(ItemId item, const Checked& then);

  const Checked& checked_;
  std::unordered_map<ItemId, std::size_t> position_of_load_;
  std::unordered_map<ItemId, BranchId> branch_of_;  // devices
  TrialBudget budget_;
  std::optional<GraveFindings> grave_;  // of the plan as it is, once they are asked for
};

}  // namespace loomleaf
