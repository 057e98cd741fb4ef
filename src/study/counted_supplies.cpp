#include "counted_supplies.h"

#include <algorithm>
#include <numeric>

namespace loomleaf {
namespace {

constexpr std::size_t kFewSupplies = 256;  // no more are listed
constexpr std::size_t kFewBanks = 4;       // of no more every choice is tried
constexpr std::size_t kManyBanks = 16;     // of more none is, for it would take longer the more there are

// Of too many banks each alone, and all but each.
std::vector<std::vector<std::size_t>> choices_among(const std::vector<std::size_t>& banks) {
  std::vector<std::vector<std::size_t>> choices(1);
  if (banks.size() <= kFewBanks) {
    for (const std::size_t bank : banks)
      for (std::size_t i = choices.size(); i-- > 0;) {
        choices.push_back(choices[i]);
        choices.back().push_back(bank);
      }
    return choices;
  }
  if (banks.size() > kManyBanks) return choices;
  for (const std::size_t bank : banks) {
    choices.push_back({bank});
    choices.push_back(banks);
    std::erase(choices.back(), bank);
  }
  return choices;
}

}  // namespace

CountedSuppliesFinder::CountedSuppliesFinder(const FaultNetwork& network,
                                             const IndexedList<NodeOf, std::size_t>& places)
    : network_(network),
      places_(places),
      order_(network.supply_count()),
      of_supply_(network.supply_count()),
      of_bank_(network.bank_count()),
      own_of_bank_(network.bank_count()) {
  std::iota(order_.begin(), order_.end(), std::size_t{0});
  std::stable_sort(order_.begin(), order_.end(),
                   [this](std::size_t a, std::size_t b) { return position(a) < position(b); });
  // What stands in series on a source counts wherever that one does.
  for (std::size_t place = 0; place < order_.size(); ++place) {
    if (const auto bank = network_.bank_of(order_[place])) own_of_bank_[*bank].push_back(place);
    std::vector<std::size_t> on_it{order_[place]};
    network_.add_series(on_it);
    for (const std::size_t supply : on_it) {
      of_supply_[supply].push_back(place);
      const auto bank = network_.bank_of(supply);
      if (bank && (of_bank_[*bank].empty() || of_bank_[*bank].back() != place)) of_bank_[*bank].push_back(place);
    }
  }
}

std::optional<std::size_t> CountedSuppliesFinder::find(const WalkRange& nodes, bool may_come_back) {
  WalkRange range{order_in(nodes.within), order_in(nodes.out_of)};
  if (range.out_of.empty()) range.out_of = {};
  const auto& [within, out_of] = range;
  const auto [place, is_new] =
      number_of_.try_emplace({within.first, within.last, out_of.first, out_of.last, may_come_back ? 1U : 0U});
  if (!is_new || within.last - within.first == out_of.last - out_of.first) return place->second;
  place->second = found_.size();
  found_.push_back(count(range, may_come_back));
  return place->second;
}

CountedSupplies CountedSuppliesFinder::count(const WalkRange& range, bool may_come_back) const {
  CountedSupplies counted{{&of_supply_, &of_bank_, range, {}}, {}, true};
  const auto& [within, out_of] = range;
  if ((within.last - within.first) - (out_of.last - out_of.first) <= kFewSupplies) {
    for (std::size_t place = within.first; place < within.last; ++place)
      if (range.contains(place)) counted.set.numbers.push_back(order_[place]);
    network_.add_series(counted.set.numbers);
  }
  std::vector<std::size_t> either;  // banks that count, and through which something comes to the end when they are fed
  for (std::size_t bank = 0; bank < own_of_bank_.size(); ++bank) {
    const auto returns_elsewhere = [&](std::size_t place) { return !range.contains(place); };
    if (counted.set.counts_bank(bank) && (may_come_back || std::ranges::any_of(own_of_bank_[bank], returns_elsewhere)))
      either.push_back(bank);
  }
  counted.fed = choices_among(either);
  counted.is_every_choice = either.size() <= kFewBanks;
  std::erase_if(counted.fed, [&](const std::vector<std::size_t>& fed) {
    return !counted.set.numbers.empty() && std::ranges::all_of(counted.set.numbers, [&](std::size_t supply) {
      const auto bank = network_.bank_of(supply);
      return bank && std::ranges::count(fed, *bank) > 0;  // nothing is left to feed them
    });
  });
  return counted;
}

WalkSpan CountedSuppliesFinder::order_in(const WalkSpan& nodes) const {
  const auto at = [this](std::size_t first) {
    const auto place = std::partition_point(order_.begin(), order_.end(),
                                            [this, first](std::size_t supply) { return position(supply) < first; });
    return static_cast<std::size_t>(place - order_.begin());
  };
  return {at(nodes.first), at(nodes.last)};
}

}  // namespace loomleaf
