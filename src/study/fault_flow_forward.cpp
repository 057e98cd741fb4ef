#include <algorithm>
#include <optional>

#include "fault_flow.h"

namespace loomleaf {

// Ports through which nothing ever comes in may well lead out.
std::size_t FaultFlowSearch::port_count(std::size_t piece) const {
  if (piece >= lump_ports_.size()) return (*pieces_)[piece - lump_ports_.size()].size();
  const WalkSpan span = network_.ports_in(network_.lumps().group(piece));
  return span.last - span.first;
}

std::optional<std::size_t> FaultFlowSearch::way_on(std::size_t piece, std::size_t position) const {
  const std::size_t port = piece >= lump_ports_.size()
                               ? (*pieces_)[piece - lump_ports_.size()][position]
                               : network_.ports_in(network_.lumps().group(piece)).first + position;
  const Port& at = network_.ports()[port];
  const bool leads_on = at.kind == Port::Kind::device || at.kind == Port::Kind::load_out;
  if (!leads_on || piece_of_[port] != piece || !is_open(port) || !is_open(at.mate)) return std::nullopt;
  return at.mate;
}

FaultFlow FaultFlowSearch::run_forward(std::size_t target) {
  total_ = 0;
  while (total_ < kUnlimited && reach_forward(target)) push_forward(target);
  FaultFlow found;
  found.most = std::min(total_, kUnlimited);
  if (total_ < kUnlimited) found.held_by = cut_forward(target);
  reset();
  return found;
}

// Levels from the supplies on, up to the target's.
bool FaultFlowSearch::reach_forward(std::size_t target) {
  for (const std::size_t piece : reached_) level_[piece] = kUnreached;
  reached_.clear();
  const auto enter = [&](std::size_t piece, int level) {
    if (level_[piece] != kUnreached) return;
    level_[piece] = level;
    next_[piece] = 0;
    reached_.push_back(piece);
  };
  for (const std::size_t supply : question_.supplies->numbers)
    if (left(supply_port_[supply]) > 0 && is_open(supply_port_[supply])) enter(piece_of_[supply_port_[supply]], 0);
  for (std::size_t i = 0; i < reached_.size() && level_[target] == kUnreached; ++i) {
    const std::size_t piece = reached_[i];
    for (std::size_t position = 0; position < port_count(piece); ++position)
      if (const auto port = way_on(piece, position); port && left(*port) > 0)
        enter(piece_of_[*port], level_[piece] + 1);
  }
  return level_[target] != kUnreached;
}

// A blocking flow along the levels.
void FaultFlowSearch::push_forward(std::size_t target) {
  for (const std::size_t supply : question_.supplies->numbers) {
    const std::size_t supply_port = supply_port_[supply], start = piece_of_[supply_port];
    if (!is_open(supply_port)) continue;
    path_.clear();
    std::size_t at = start;
    while (total_ < kUnlimited && left(supply_port) > 0 && level_[start] == 0) {
      if (at == target) {
        take(supply_port);
        path_.clear();
        at = start;
        continue;
      }
      if (next_[at] == port_count(at)) {
        if (path_.empty()) break;
        at = piece_of_[network_.ports()[path_.back()].mate];
        path_.pop_back();
        ++next_[at];
        continue;
      }
      const auto port = way_on(at, next_[at]);
      if (port && left(*port) > 0 && level_[piece_of_[*port]] == level_[at] + 1) {
        path_.push_back(*port);
        at = piece_of_[*port];
        continue;
      }
      ++next_[at];
    }
  }
}

// The cut nearest to the target among all that these supplies reach: what can still bring more to the target is on its
// side, and whatever comes into that is full.
std::vector<ItemId> FaultFlowSearch::cut_forward(std::size_t target) {
  std::vector<std::size_t> reached = list_entries(target);

  std::vector<std::size_t> near{target};
  is_near_.resize(level_.size(), false);
  is_near_[target] = true;
  const auto before = [&](std::size_t port) {  // the piece that this port's flow comes from; nothing for a supply
    const Port& at = network_.ports()[port];
    return at.kind == Port::Kind::supply ? std::optional<std::size_t>() : piece_of_[at.mate];
  };
  for (std::size_t i = 0; i < near.size(); ++i)
    for (auto entry = last_entry_[near[i]]; entry; entry = entries_[*entry].before) {
      const auto from = before(entries_[*entry].port);
      if (!from || is_near_[*from] || left(entries_[*entry].port) <= 0) continue;
      is_near_[*from] = true;
      near.push_back(*from);
    }
  std::vector<ItemId> items;
  for (const std::size_t piece : near)
    for (auto entry = last_entry_[piece]; entry; entry = entries_[*entry].before) {
      const auto from = before(entries_[*entry].port);
      if (!from || !is_near_[*from]) items.push_back(network_.ports()[entries_[*entry].port].item);
    }
  std::sort(items.begin(), items.end());
  items.erase(std::unique(items.begin(), items.end()), items.end());

  for (const std::size_t piece : near) is_near_[piece] = false;
  for (const std::size_t piece : reached) last_entry_[piece].reset();
  entries_.clear();
  return items;
}

// The ports by which something of these supplies may come into each piece that they reach. Returns these pieces.
std::vector<std::size_t> FaultFlowSearch::list_entries(std::size_t target) {
  std::vector<std::size_t> reached;
  last_entry_.resize(level_.size());
  const auto enter = [&](std::size_t port) {
    const std::size_t piece = piece_of_[port];
    if (!last_entry_[piece]) reached.push_back(piece);
    entries_.push_back({port, last_entry_[piece]});
    last_entry_[piece] = entries_.size() - 1;
  };
  for (const std::size_t supply : question_.supplies->numbers)
    if (capacity_[supply_port_[supply]] > 0 && is_open(supply_port_[supply])) enter(supply_port_[supply]);
  for (std::size_t i = 0; i < reached.size(); ++i) {
    if (reached[i] == target) continue;
    for (std::size_t position = 0; position < port_count(reached[i]); ++position) {
      const auto port = way_on(reached[i], position);
      if (!port || capacity_[*port] <= 0) continue;
      enter(*port);
      const std::size_t back = network_.ports()[*port].mate;
      if (capacity_[back] == 0 && left(back) > 0) enter(back);  // what a load passes can be taken back
    }
  }
  return reached;
}

}  // namespace loomleaf
