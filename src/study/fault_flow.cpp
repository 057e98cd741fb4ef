#include "fault_flow.h"

#include <algorithm>
#include <array>
#include <numeric>

namespace loomleaf {

ByNames::ByNames(const Plan& plan) : place_(plan.items.size()) {
  std::vector<std::size_t> order(plan.items.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::sort(order, {}, [&plan](std::size_t item) -> const std::string& { return plan.items[ItemId(item)].id; });
  for (std::size_t at = 0; at < order.size(); ++at) place_[ItemId(order[at])] = at;
}

std::vector<std::size_t> ByNames::names(const FaultFlow& flow) const {
  std::vector<std::size_t> places;
  for (const ItemId item : flow.held_by) places.push_back(place_[item]);
  std::sort(places.begin(), places.end());
  return places;
}

FaultFlowSearch::FaultFlowSearch(const FaultNetwork& network)
    : network_(network),
      capacity_(network.ports().size()),
      flow_(network.ports().size(), 0),
      lump_ports_(network.lumps().group_count()),
      piece_of_(network.ports().size()),
      supply_port_(network.supply_count()),
      level_(network.lumps().group_count(), kUnreached),
      next_(network.lumps().group_count(), 0) {
  for (std::size_t p = 0; p < capacity_.size(); ++p) {
    const Port& port = network.ports()[p];
    capacity_[p] = port.useless ? 0 : port.most;
    piece_of_[p] = network.lump_of_port(p);
    if (port.kind == Port::Kind::supply) supply_port_[port.supply] = p;
    if (!port.useless) lump_ports_[piece_of_[p]].push_back(p);
  }
}

const std::vector<std::size_t>& FaultFlowSearch::ports_of(std::size_t piece) const {
  return piece < lump_ports_.size() ? lump_ports_[piece] : (*pieces_)[piece - lump_ports_.size()];
}

bool FaultFlowSearch::is_open(std::size_t port) const {
  const Port& at = network_.ports()[port];
  switch (at.kind) {
    case Port::Kind::supply:
      return !question_.supplies || (question_.supplies->counts(at.supply) && !(at.bank && is_fed(at)));
    case Port::Kind::device:
      return true;
    case Port::Kind::load_in:
      if (question_.places && !question_.returning.contains((*question_.places)[at.node])) return false;
      [[fallthrough]];
    case Port::Kind::load_out:
      return question_.through_loads && (!at.bank || is_fed(at));
  }
  return false;
}

bool FaultFlowSearch::is_fed(const Port& battery) const {
  return std::ranges::count(question_.fed, *battery.bank) > 0 || !question_.supplies->counts_bank(*battery.bank);
}

FaultFlow FaultFlowSearch::into_lump(std::size_t lump, const FaultQuestion& question) {
  question_ = question;
  return run(lump, port_count(lump));
}

FaultFlow FaultFlowSearch::into_piece(const std::vector<PieceOfLump>& pieces, const FaultQuestion& question) {
  question_ = question;
  pieces_ = &pieces;
  const std::size_t lumps = lump_ports_.size();
  if (level_.size() < lumps + pieces.size()) {
    level_.resize(lumps + pieces.size(), kUnreached);
    next_.resize(lumps + pieces.size(), 0);
  }
  for (std::size_t i = 0; i < pieces.size(); ++i)
    for (const std::size_t port : pieces[i]) piece_of_[port] = lumps + i;
  FaultFlow found = run_backward(lumps);
  for (const PieceOfLump& piece : pieces)
    for (const std::size_t port : piece) piece_of_[port] = network_.lump_of_port(port);
  pieces_ = nullptr;
  return found;
}

// The smaller side becomes a piece of its own, the other stays the lump.
FaultFlow FaultFlowSearch::into_side(const SideOfLump& target, const FaultQuestion& question) {
  question_ = question;
  const std::size_t lumps = lump_ports_.size();
  if (level_.size() < lumps + 1) {
    level_.resize(lumps + 1, kUnreached);
    next_.resize(lumps + 1, 0);
  }
  const WalkSpan whole = network_.ports_in(network_.lumps().group(target.lump));
  const std::size_t within = target.ports.last - target.ports.first;
  const bool moves_within = 2 * within <= whole.last - whole.first;
  std::vector<PieceOfLump> pieces(1);
  for (const WalkSpan& span :
       moves_within ? std::array{target.ports, WalkSpan{}}
                    : std::array{WalkSpan{whole.first, target.ports.first}, WalkSpan{target.ports.last, whole.last}})
    for (std::size_t port = span.first; port < span.last; ++port) pieces[0].push_back(port);
  for (const std::size_t port : pieces[0]) piece_of_[port] = lumps;
  pieces_ = &pieces;
  const bool is_moved = moves_within == target.is_within;
  const std::size_t of_target = is_moved ? pieces[0].size() : whole.last - whole.first - pieces[0].size();
  FaultFlow found = run(is_moved ? lumps : target.lump, of_target);
  for (const std::size_t port : pieces[0]) piece_of_[port] = target.lump;
  pieces_ = nullptr;
  return found;
}

FaultFlow FaultFlowSearch::run(std::size_t target, std::size_t ports) {
  const std::size_t few = question_.supplies ? question_.supplies->numbers.size() : 0;
  return 0 < few && few < ports ? run_forward(target) : run_backward(target);
}

FaultFlow FaultFlowSearch::run_backward(std::size_t target) {
  total_ = 0;
  while (total_ < kUnlimited && reach(target)) push(target);
  FaultFlow found;
  found.most = std::min(total_, kUnlimited);
  if (total_ < kUnlimited) found.held_by = cut();
  reset();
  return found;
}

bool FaultFlowSearch::reach(std::size_t target) {
  for (const std::size_t piece : reached_) level_[piece] = kUnreached;
  reached_.assign(1, target);
  level_[target] = 0;
  supply_level_ = kUnreached;
  for (std::size_t i = 0; i < reached_.size(); ++i) {
    const std::size_t piece = reached_[i];
    next_[piece] = 0;
    if (supply_level_ != kUnreached && level_[piece] >= supply_level_) continue;
    for (const std::size_t port : ports_of(piece)) {
      if (piece_of_[port] != piece || left(port) <= 0 || !is_open(port)) continue;
      if (network_.ports()[port].kind == Port::Kind::supply) {
        supply_level_ = level_[piece];
        break;
      }
      const std::size_t from = piece_of_[network_.ports()[port].mate];
      if (level_[from] != kUnreached) continue;
      level_[from] = level_[piece] + 1;
      reached_.push_back(from);
    }
  }
  return supply_level_ != kUnreached;
}

void FaultFlowSearch::push(std::size_t target) {
  path_.clear();
  std::size_t at = target;
  while (total_ < kUnlimited) {
    if (next_[at] == ports_of(at).size()) {
      if (path_.empty()) return;
      at = piece_of_[path_.back()];
      path_.pop_back();
      ++next_[at];
      continue;
    }
    const std::size_t port = ports_of(at)[next_[at]];
    if (piece_of_[port] == at && left(port) > 0 && is_open(port)) {
      if (network_.ports()[port].kind == Port::Kind::supply) {
        if (level_[at] == supply_level_) {
          take(port);
          path_.clear();
          at = target;
          continue;
        }
      } else {
        const std::size_t from = piece_of_[network_.ports()[port].mate];
        if (level_[from] == level_[at] + 1 && level_[from] <= supply_level_) {
          path_.push_back(port);
          at = from;
          continue;
        }
      }
    }
    ++next_[at];
  }
}

void FaultFlowSearch::take(std::size_t supply_port) {
  Microamperes most = left(supply_port);
  for (const std::size_t port : path_) most = std::min(most, left(port));
  total_ += most;
  if (most >= kUnlimited) return;
  flow_[supply_port] += most;
  touched_.push_back(supply_port);
  for (const std::size_t port : path_) {
    flow_[port] += most;
    flow_[network_.ports()[port].mate] -= most;
    touched_.push_back(port);
  }
}

// What the last search reached is the target's side of the nearest cut; whatever comes into it is full.
std::vector<ItemId> FaultFlowSearch::cut() const {
  std::vector<ItemId> items;
  for (const std::size_t piece : reached_)
    for (const std::size_t port : ports_of(piece)) {
      if (piece_of_[port] != piece || capacity_[port] <= 0 || !is_open(port)) continue;
      const Port& at = network_.ports()[port];
      if (at.kind == Port::Kind::supply || level_[piece_of_[at.mate]] == kUnreached) items.push_back(at.item);
    }
  std::sort(items.begin(), items.end());
  items.erase(std::unique(items.begin(), items.end()), items.end());
  return items;
}

void FaultFlowSearch::reset() {
  for (const std::size_t piece : reached_) level_[piece] = kUnreached;
  reached_.clear();
  for (const std::size_t port : touched_) {
    flow_[port] = 0;
    flow_[network_.ports()[port].mate] = 0;
  }
  touched_.clear();
}

}  // namespace loomleaf
