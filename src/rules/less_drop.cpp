#include "less_drop.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "cure.h"
#include "found.h"
#include "loomleaf/units/format.h"

namespace loomleaf {

WaysHome::WaysHome(const Checked& checked, std::size_t ways) : circuit_(checked.circuit) {
  const Sides& sides = checked.study.sides[ways];
  std::vector<NodeId> plus, minus;
  for (const Supply& supply : sides.supplies) {
    plus.push_back(supply.plus);
    minus.push_back(supply.minus);
  }
  to_plus_ = spread(plus, checked.study.ways.all[ways]);
  to_minus_ = spread(minus, checked.study.ways.all[ways]);
}

WaysHome::Steps WaysHome::spread(const std::vector<NodeId>& roots, const Ways& ways) const {
  Steps steps(circuit_.nodes.size());
  IndexedList<NodeOf, bool> seen(circuit_.nodes.size());
  std::vector<NodeId> open;
  for (const NodeId root : roots) {
    if (!seen[root]) open.push_back(root);
    seen[root] = true;
  }
  for (std::size_t at = 0; at < open.size(); ++at) {
    const NodeId node = open[at];
    for (const BranchId branch : circuit_.at[node]) {
      if (!conducts(circuit_, branch, ways)) continue;
      const NodeId next =
          circuit_.branches[branch].a == node ? circuit_.branches[branch].b : circuit_.branches[branch].a;
      if (seen[next]) continue;
      seen[next] = true;
      steps[next] = branch;
      open.push_back(next);
    }
  }
  return steps;
}

void WaysHome::follow(const Steps& steps, NodeId node, std::size_t most, std::vector<BranchId>& way) const {
  for (std::size_t step = 0; steps[node] && step < most; ++step) {
    const BranchId branch = *steps[node];
    way.push_back(branch);
    node = circuit_.branches[branch].a == node ? circuit_.branches[branch].b : circuit_.branches[branch].a;
  }
}

std::vector<BranchId> WaysHome::of_load(NodeId plus, NodeId minus, std::size_t most) const {
  std::vector<BranchId> way;
  follow(to_plus_, plus, most, way);
  follow(to_minus_, minus, most, way);
  return way;
}

namespace {

// A wire or cable on the load's way, and what each size of it would drop.
struct Piece {
  RunId run;
  double volts = 0.0;  // dropped now, in all its cores on the way
  double metres_of_copper = 0.0;
  std::vector<const WireStock*> sizes;  // its own first, then thicker ones
  std::size_t chosen = 0;

  double volts_at(std::size_t size) const { return volts * (sizes[size]->per_metre_20C / sizes[0]->per_metre_20C); }
  double copper_at(std::size_t size) const { return metres_of_copper * sizes[size]->area.in(square_millimetres); }
};

std::vector<Piece> pieces_of(const Checked& checked, const std::vector<BranchId>& way, Voltage drop) {
  std::vector<Piece> pieces;
  double in_all = 0.0;
  for (const BranchId branch : way) {
    const Branch& at = checked.circuit.branches[branch];
    const double volts = working_amperes(checked, branch) * checked.study.working.branch_resistance[branch].in(ohms);
    in_all += volts;
    if (!at.conductor) continue;
    const ConductorFigures& figures = checked.study.conductors[*at.conductor];
    const RunId run = checked.plan.conductors[*at.conductor].run;
    auto piece = std::ranges::find(pieces, run, &Piece::run);
    if (piece == pieces.end()) {
      const WireStock* now = checked.stock.find(figures.size);
      if (!now) continue;
      std::vector<const WireStock*> sizes = thicker_stock(checked.stock, figures.size, checked.plan.runs[run].is_cable);
      sizes.insert(sizes.begin(), now);
      pieces.push_back({run, 0.0, 0.0, std::move(sizes), 0});
      piece = pieces.end() - 1;
    }
    piece->volts += volts;
    piece->metres_of_copper += figures.length.in(metres);
  }
  // Greatest currents of several cases may add up to more than this load's own case: count them down to its drop.
  const double scale = in_all > drop.in(volts) ? drop.in(volts) / in_all : 1.0;
  for (Piece& piece : pieces) piece.volts *= scale;
  return pieces;
}

std::string change_text(const Checked& checked, const Piece& piece) {
  return fmt::format("{} {}", checked.plan.runs[piece.run].id, to_text(piece.sizes[piece.chosen]->size));
}

double copper_of(const std::vector<Piece>& pieces) {
  double copper = 0.0;
  for (const Piece& piece : pieces) copper += piece.copper_at(piece.chosen) - piece.copper_at(0);
  return copper;
}

// The first `count` pieces made thicker size by size, all alike, until enough is saved; false where that does not do.
bool thicken(std::vector<Piece>& pieces, std::size_t count, double too_many) {
  for (std::size_t size = 1;; ++size) {
    double saved = 0.0;
    bool any = false;
    for (std::size_t at = 0; at < count; ++at) {
      Piece& piece = pieces[at];
      if (size < piece.sizes.size()) {
        piece.chosen = size;
        any = true;
      }
      saved += piece.volts - piece.volts_at(piece.chosen);
    }
    if (saved >= too_many) return true;
    if (!any) return false;
  }
}

// The pieces that drop the most are taken, as many of them as need the least copper in all.
std::optional<std::string> least_copper(const Checked& checked, std::vector<Piece> pieces, double too_many) {
  constexpr std::size_t most_changes = 6;  // nobody replaces more for one lamp
  std::ranges::stable_sort(pieces, std::greater{}, &Piece::volts);
  std::vector<Piece> best;
  for (std::size_t count = 1; count <= std::min(pieces.size(), most_changes); ++count) {
    std::vector<Piece> tried = pieces;
    if (!thicken(tried, count, too_many)) continue;
    if (best.empty() || copper_of(tried) < copper_of(best)) best = std::move(tried);
  }
  std::ranges::sort(best, {}, &Piece::run);  // named in the plan's order
  std::vector<std::string> changes;
  for (const Piece& piece : best) {
    if (piece.chosen > 0) changes.push_back(change_text(checked, piece));
  }
  if (changes.empty()) return std::nullopt;
  return fmt::format("make {} at least", listed(changes));
}

}  // namespace

std::string DropCures::text(std::size_t load, std::size_t in_case, Voltage drop, Voltage limit) {
  constexpr std::size_t longest_way = 40;  // pieces on one side; beyond that nobody replaces single pieces
  constexpr double sure = 1.02;            // a little more than needed, for what the estimate leaves out
  const std::size_t ways = checked_.study.working.cases[in_case].ways;
  const WaysHome& home = by_ways_.try_emplace(ways, checked_, ways).first->second;
  const TwoPole& ends = checked_.circuit.loads[load];
  const std::vector<BranchId> way = home.of_load(ends.plus, ends.minus, longest_way);
  const double too_many = (drop - limit).in(volts)*sure;
  if (way.size() < longest_way) {
    if (const auto text = least_copper(checked_, pieces_of(checked_, way, drop), too_many)) return *text;
  }
  return fmt::format("shorten the way to {}, or feed it by a thicker main of its own", id_of(checked_.plan, ends.item));
}

}  // namespace loomleaf
