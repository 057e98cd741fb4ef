#include "cure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "found.h"
#include "loomleaf/units/format.h"
#include "splices_sold.h"

namespace loomleaf {

std::vector<Current> ratings_like(const Stock& stock, const Device& device) {
  if (const FuseFamily* family = stock.find_family(device.family)) return family->ratings;
  std::vector<Current> ratings;
  for (const FuseFamily& family : stock.families) {
    if (family.breaker == device.is_breaker)
      ratings.insert(ratings.end(), family.ratings.begin(), family.ratings.end());
  }
  std::ranges::sort(ratings);
  ratings.erase(std::unique(ratings.begin(), ratings.end()), ratings.end());
  return ratings;
}

std::optional<Current> rating_up_to(const std::vector<Current>& rising, Current most) {
  std::optional<Current> best;
  for (const Current rating : rising) {
    if (!exceeds(rating.in(amperes), most.in(amperes))) best = rating;
  }
  return best;
}

std::optional<Current> rating_from(const std::vector<Current>& rising, Current least) {
  for (const Current rating : rising) {
    if (!exceeds(least.in(amperes), rating.in(amperes))) return rating;
  }
  return std::nullopt;
}

std::vector<const WireStock*> thicker_stock(const Stock& stock, const WireSize& size, bool in_cable) {
  std::vector<const WireStock*> thicker;
  const Area area = nominal_area(size);
  for (const WireStock& wire : stock.wires) {
    // Diameters are published of what is sold; those of the odd gauges between are estimates. Of cables of vehicle wire
    // the stock knows none, though they are sold.
    const bool is_vehicle_wire = wire.size.system == WireSize::System::sae;
    const bool sold =
        is_vehicle_wire || (in_cable ? wire.two_core_od > Length{} : wire.od_from.known != Known::practice);
    if (sold && wire.size.system == size.system && nominal_area(wire.size) > area) thicker.push_back(&wire);
  }
  std::ranges::sort(thicker, {}, [](const WireStock* wire) { return nominal_area(wire->size); });
  return thicker;
}

std::optional<Current> too_much_for(const ConductorProtection& protection) {
  if (!is_too_thin(protection)) return std::nullopt;
  return protection.exposure == Exposure::too_thin_for_device ? protection.beyond_rating : protection.let_through;
}

namespace {

// What is asked of a conductor: by what can flow in it, with the rulebook's allowance, and by its work.
struct Asked {
  Current let_through{}, lasting{};
};

Asked asked_of(const Checked& checked, ConductorId conductor) {
  const auto& work = checked.study.working.lasting_branches[checked.circuit.branch_of[conductor]];
  return {too_much_for(checked.study.protection.conductors[conductor]).value_or(Current{}),
          work ? abs(work->value) : Current{}};
}

std::optional<BearingSize> thinnest_for(const Checked& checked, ConductorId conductor, const Asked& asked,
                                        Bears bears) {
  const ConductorFigures& figures = checked.study.conductors[conductor];
  const Run& run = run_of(checked.plan, conductor);
  // Where the rulebook has no table for its insulation, of the coolest that has one.
  const std::optional<Temperature> insulation =
      is_bound_by_insulation(figures) ? figures.no_more_than->as.insulation : run.insulation;
  const double factor = figures.ambient_factor * figures.grouping_factor;
  for (const WireStock* wire : thicker_stock(checked.stock, figures.size, run.is_cable)) {
    const auto ampacity = checked.rulebook.derated_ampacity(wire->size, insulation, factor);
    if (!ampacity) continue;
    const Current may_carry = ampacity->value * figures.allowance.value;
    if (exceeds(asked.let_through.in(amperes), may_carry.in(amperes))) continue;
    if (exceeds(asked.lasting.in(amperes), ampacity->value.in(amperes))) continue;
    return BearingSize{wire->size, bears == Bears::device ? may_carry : ampacity->value};
  }
  return std::nullopt;
}

}  // namespace

std::optional<BearingSize> size_that_bears(const Checked& checked, ConductorId conductor, Current current,
                                           Bears bears) {
  const bool by_device = bears == Bears::device;
  Asked all = asked_of(checked, conductor);
  Current& its = by_device ? all.let_through : all.lasting;
  its = std::max(its, current);
  if (const auto size = thinnest_for(checked, conductor, all, bears)) return size;
  const Asked alone{by_device ? current : Current{}, by_device ? Current{} : current};
  return thinnest_for(checked, conductor, alone, bears);
}

std::optional<WireSize> size_asked_for(const Checked& checked, ConductorId conductor) {
  const auto most = checked.study.conductors[conductor].carries_at_most();
  const Asked asked = asked_of(checked, conductor);
  const bool overloaded = most && exceeds(asked.lasting.in(amperes), most->in(amperes));
  if (!overloaded && asked.let_through == Current{}) return std::nullopt;
  const auto size = thinnest_for(checked, conductor, asked, Bears::device);
  return size ? std::optional(size->size) : std::nullopt;
}

double working_amperes(const Checked& checked, BranchId branch) {
  const auto& worst = checked.study.working.branches[branch];
  return worst ? std::fabs(worst->value.in(amperes)) : 0.0;
}

std::vector<ItemId> too_small_for(const Checked& checked, ConductorId conductor, const WireSize& size) {
  std::vector<ItemId> too_small;
  for (const ConductorId of_run : run_of(checked.plan, conductor).conductors)
    for (const TerminalId end : {checked.plan.conductors[of_run].from, checked.plan.conductors[of_run].to}) {
      const ItemId id = checked.plan.terminals[end].item;
      const Item& item = checked.plan.items[id];
      const Splice* splice = item.as<Splice>();
      const Connector* connector = item.as<Connector>();
      const auto takes = splice ? splice->takes : connector ? connector->takes : std::nullopt;
      if (takes && !goes_into(size, *takes) && std::ranges::find(too_small, id) == too_small.end())
        too_small.push_back(id);
    }
  return too_small;
}

std::string thicker_text(const Checked& checked, ConductorId conductor, Current current, Bears bears) {
  const std::string& run = run_of(checked.plan, conductor).id;
  const ConductorFigures& figures = checked.study.conductors[conductor];
  if (figures.ambient_factor == 0.0) {
    return fmt::format("give {} insulation for a higher temperature, or a cooler way", run);
  }
  const auto size = size_that_bears(checked, conductor, current, bears);
  if (!size) {
    return fmt::format("share the load of {} among several circuits: no size in the stock bears {}", run,
                       to_text(current));
  }
  const std::string insulated =
      is_bound_by_insulation(figures) ? " with insulation for " + to_text(*figures.no_more_than->as.insulation) : "";
  const std::vector<ItemId> too_small = too_small_for(checked, conductor, size->size);
  const std::string joints =
      too_small.empty() ? "" : fmt::format(", with {} for that size", all_listed(names_of(checked.plan, too_small)));
  return fmt::format("make {} {} or thicker{}, which may carry {}{}", run, to_text(size->size), insulated,
                     to_text(size->may_carry), joints);
}

bool is_bound_by_insulation(const ConductorFigures& figures) {
  return figures.no_more_than && figures.no_more_than->as.size == figures.size;
}

std::string may_carry_text(const ConductorFigures& figures, const std::string& may_be) {
  if (!figures.no_more_than)
    return figures.side_by_side > 1
               ? fmt::format("{} with {} beside it", may_be, figures.side_by_side > 2 ? "those" : "the one")
               : may_be;
  const LookedUpAs& as = figures.no_more_than->as;
  return fmt::format("no more than the {} of {}", may_be,
                     is_bound_by_insulation(figures) ? to_text(*as.insulation) + " insulation" : to_text(as.size));
}

namespace {

Current needed_in(const Checked& checked, ConductorId conductor) {
  return amperes(working_amperes(checked, checked.circuit.branch_of[conductor]) *
                 checked.rulebook.continuous_factor.value);
}

}  // namespace

std::optional<Current> fuse_for(const Checked& checked, ConductorId conductor) {
  const ConductorFigures& figures = checked.study.conductors[conductor];
  if (!figures.ampacity) return std::nullopt;
  const auto rating = rating_up_to(ratings_like(checked.stock, Device{}), *figures.may_carry);
  return rating && *rating >= needed_in(checked, conductor) ? rating : std::nullopt;
}

std::string fuse_text(const Checked& checked, ConductorId conductor, const std::string& where) {
  if (const auto rating = fuse_for(checked, conductor))
    return fmt::format("put a fuse of {} at most {}", to_text(*rating), where);
  const std::vector<Current> ratings = ratings_like(checked.stock, Device{});
  const Current needed = needed_in(checked, conductor);
  // The fuse that the next size which has an ampacity, and bears the work, may have.
  const auto thicker = size_that_bears(checked, conductor, needed, Bears::device);
  const auto rating = thicker ? rating_up_to(ratings, thicker->may_carry) : rating_from(ratings, needed);
  if (!rating) return fmt::format("put a fuse of at least {} {}", to_text(needed), where);
  return fmt::format("put a fuse of {} at most {}, and {}", to_text(*rating), where,
                     thicker_text(checked, conductor, *rating, Bears::device));
}

std::string factors_text(const ConductorFigures& figures) {
  std::vector<std::string> factors;
  if (figures.ambient_factor != 1.0) {
    factors.push_back(fmt::format("x {} where it is warm", to_text(figures.ambient_factor, 3)));
  }
  if (figures.grouping_factor != 1.0) {
    factors.push_back(
        fmt::format("x {} for {} run together", to_text(figures.grouping_factor, 3), figures.grouped_with));
  }
  return factors.empty() ? "" : fmt::format(" ({})", fmt::join(factors, ", "));
}

std::string ampacity_source(const ConductorFigures& figures, Bears bears) {
  std::vector<Provenance> sources;
  if (const auto table = figures.from_table()) sources.push_back(table->from);
  if (figures.ambient_factor != 1.0) sources.push_back(figures.ambient_from);
  if (figures.grouping_factor != 1.0) sources.push_back(figures.grouping_from);
  if (bears == Bears::device) sources.push_back(figures.allowance.from);
  return sources_text(sources);
}

}  // namespace loomleaf
