#include "less_drop.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <vector>

#include "cure.h"
#include "found.h"
#include "loomleaf/units/format.h"
#include "lost_on_the_way.h"

namespace loomleaf {

namespace {

// A wire or cable on the load's way, and what each size of it would lose.
struct Piece {
  RunId run;
  double volts = 0.0;  // dropped now, in all its cores on the way
  double metres_of_copper = 0.0;
  std::vector<const WireStock*> sizes;  // its own first, then thicker ones
  std::size_t chosen = 0;

  double volts_at(std::size_t size) const { return volts * (sizes[size]->per_metre_20C / sizes[0]->per_metre_20C); }
  double copper_at(std::size_t size) const { return metres_of_copper * sizes[size]->area.in(square_millimetres); }
};

std::vector<Piece> pieces_of(const Checked& checked, const std::vector<Loss>& losses) {
  std::vector<Piece> pieces;
  for (const Loss& loss : losses) {
    const Branch& at = checked.circuit.branches[loss.branch];
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
    piece->volts += loss.volts.in(volts);
    piece->metres_of_copper += figures.length.in(metres);
  }
  return pieces;
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
std::vector<Piece> least_copper(std::vector<Piece> pieces, double too_many) {
  constexpr std::size_t most_changes = 6;  // nobody replaces more for one lamp
  std::ranges::stable_sort(pieces, std::greater{}, &Piece::volts);
  std::vector<Piece> best;
  for (std::size_t count = 1; count <= std::min(pieces.size(), most_changes); ++count) {
    std::vector<Piece> tried = pieces;
    if (!thicken(tried, count, too_many)) continue;
    if (best.empty() || copper_of(tried) < copper_of(best)) best = std::move(tried);
  }
  return best;
}

// No thinner than other findings on it ask for.
WireSize size_agreed(const Checked& checked, const Piece& piece) {
  WireSize size = piece.sizes[piece.chosen]->size;
  for (const ConductorId conductor : checked.plan.runs[piece.run].conductors)
    if (const auto asked = size_asked_for(checked, conductor); asked && nominal_area(*asked) > nominal_area(size))
      size = *asked;
  return size;
}

// Thicker conductors for what is too much in one case, added to the others; false where none do.
bool add_sizes(const Checked& checked, const Solution& solution, std::size_t load, const TooMuchLost& lost,
               std::map<RunId, WireSize>& sizes) {
  constexpr std::size_t longest_way = 40;  // pieces on one side; beyond that nobody replaces single pieces
  constexpr double sure = 1.02;            // a little more than needed: less loss lets some loads draw more
  const auto losses = losses_of(checked, solution, load, longest_way);
  if (!losses) return false;
  const std::vector<Piece> best = least_copper(pieces_of(checked, *losses), (lost.drop - lost.limit).in(volts)*sure);
  for (const Piece& piece : best)
    if (piece.chosen > 0) sizes.insert_or_assign(piece.run, size_agreed(checked, piece));
  return !best.empty();
}

}  // namespace

DropCures::DropCures(const Checked& checked, JudgeDrop judge)
    : checked_(checked), judge_(judge), studies_(checked, most_studied_again), cases_(checked, most_solved_again) {}

// Nothing where too many have been asked for.
const Solution* DropCures::solution_in(std::size_t in_case) {
  const auto known = solutions_.find(in_case);
  if (known != solutions_.end()) return &known->second;
  if (!cases_.has(1)) return nullptr;
  cases_.spend_one();
  const Case& at = checked_.study.working.cases[in_case];
  return &solutions_.emplace(in_case, solution_of(checked_, at)).first->second;
}

// Round by round, for what helps in one case leaves the worst to another, such as the other traveller of a pair of
// two-way switches.
std::optional<DropCures::Sizes> DropCures::sizes_for(std::size_t load) {
  constexpr std::size_t most_rounds = 6;
  const ItemId item = checked_.circuit.loads[load].item;
  auto lost = judge_(checked_.plan, item, checked_.study.working.loads[load]);
  const Solution* now = lost ? solution_in(lost->in_case) : nullptr;
  Sizes sizes;
  if (!now || !add_sizes(checked_, *now, load, *lost, sizes)) return std::nullopt;
  Trial trial(checked_);
  for (std::size_t round = 0; round < most_rounds; ++round) {
    if (!studies_.has(1)) return sizes;
    studies_.spend_one();
    for (const auto& [run, size] : sizes) trial.set_size(run, size);
    const Checked& then = trial.study();
    lost = judge_(then.plan, item, then.study.working.loads[load]);
    if (!lost) {
      if (!grave_) grave_ = grave_findings(checked_);
      if (!std::ranges::includes(*grave_, grave_findings(then))) return std::nullopt;
      return sizes;
    }
    const Solution solution = solution_of(then, then.study.working.cases[lost->in_case]);
    if (!add_sizes(then, solution, load, *lost, sizes)) return std::nullopt;
  }
  return std::nullopt;
}

std::string DropCures::text(std::size_t load) {
  if (const auto sizes = sizes_for(load)) {
    std::vector<std::string> changes;  // in the plan's order
    for (const auto& [run, size] : *sizes)
      changes.push_back(fmt::format("{} {}", checked_.plan.runs[run].id, to_text(size)));
    return fmt::format("make {} at least", all_listed(changes));
  }
  return fmt::format("shorten the way to {}, or feed it by a thicker main of its own",
                     id_of(checked_.plan, checked_.circuit.loads[load].item));
}

}  // namespace loomleaf
