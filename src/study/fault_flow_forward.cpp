#include <algorithm>
#include <map>
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
std::vector<ItemId> FaultFlowSearch::cut_forward(std::size_t target) const {
  std::vector<std::size_t> reached;
  std::map<std::size_t, std::vector<std::size_t>> ports_into;  // by piece
  const auto enter = [&](std::size_t port) {
    const std::size_t piece = piece_of_[port];
    const auto [place, is_new] = ports_into.try_emplace(piece);
    place->second.push_back(port);
    if (is_new && piece != target) reached.push_back(piece);
  };
  for (const std::size_t supply : question_.supplies->numbers)
    if (capacity_[supply_port_[supply]] > 0 && is_open(supply_port_[supply])) enter(supply_port_[supply]);
  for (std::size_t i = 0; i < reached.size(); ++i)
    for (std::size_t position = 0; position < port_count(reached[i]); ++position) {
      const auto port = way_on(reached[i], position);
      if (!port || capacity_[*port] <= 0) continue;
      enter(*port);
      const std::size_t back = network_.ports()[*port].mate;
      if (capacity_[back] == 0 && left(back) > 0) enter(back);  // what a load passes can be taken back
    }

  std::vector<std::size_t> near{target};
  std::map<std::size_t, bool> is_near{{target, true}};
  const auto before = [&](std::size_t port) {  // the piece that this port's flow comes from; nothing for a supply
    const Port& at = network_.ports()[port];
    return at.kind == Port::Kind::supply ? std::optional<std::size_t>() : piece_of_[at.mate];
  };
  for (std::size_t i = 0; i < near.size(); ++i) {
    const auto into = ports_into.find(near[i]);
    if (into == ports_into.end()) continue;
    for (const std::size_t port : into->second) {
      const auto from = before(port);
      if (from && left(port) > 0 && is_near.try_emplace(*from, true).second) near.push_back(*from);
    }
  }
  std::vector<ItemId> items;
  for (const std::size_t piece : near) {
    const auto into = ports_into.find(piece);
    if (into == ports_into.end()) continue;
    for (const std::size_t port : into->second) {
      const auto from = before(port);
      if (!from || !is_near.count(*from)) items.push_back(network_.ports()[port].item);
    }
  }
  std::sort(items.begin(), items.end());
  items.erase(std::unique(items.begin(), items.end()), items.end());
  return items;
}

}  // namespace loomleaf
