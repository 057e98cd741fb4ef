// Cures worked out from the stock and the rulebook, so that a `mend` line names what can be bought and really works.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

// Ratings that a family is sold in; of all families of fuses (or breakers) where the plan names none. Rising.
std::vector<Current> ratings_like(const Stock& stock, const Device& device);
std::optional<Current> rating_up_to(const std::vector<Current>& rising, Current most);
std::optional<Current> rating_from(const std::vector<Current>& rising, Current least);

// What a size must bear: the working current as it is, or a device ahead of it with the rulebook's allowance.
enum class Bears { working_current, device };

// What a conductor has to be thick enough for, where it is too thin for what can flow in it or for the device beyond
// it.
std::optional<Current> too_much_for(const ConductorProtection& protection);

// The thinnest size in the stock, in the same system as this conductor's, that bears this current where it runs, and
// with it all else that is asked of it, so that the mends of several findings on one conductor agree; where none bears
// all, this current alone.
struct BearingSize {
  WireSize size;
  Current may_carry;
};
std::optional<BearingSize> size_that_bears(const Checked& checked, ConductorId conductor, Current current, Bears bears);

// The size that findings on this conductor ask for, where it is too thin for its devices or for its work.
std::optional<WireSize> size_asked_for(const Checked& checked, ConductorId conductor);

// The greatest current that flows in normal work, in amperes; 0 where it is not known.
double working_amperes(const Checked& checked, BranchId branch);

// The splices and plugs at the ends of a conductor's run that do not take this size.
std::vector<ItemId> too_small_for(const Checked& checked, ConductorId conductor, const WireSize& size);

// "make C1 10 AWG or thicker", with the cable's name for a core, and ", with X for that size" where a plug or splice at
// its end does not take it; where no size does: that the load must be shared.
std::string thicker_text(const Checked& checked, ConductorId conductor, Current current, Bears bears);

// The greatest fuse that protects the conductor and that its own work lets stay closed.
std::optional<Current> fuse_for(const Checked& checked, ConductorId conductor);
// "put a fuse of 15 A at most close to B+", where `where` is "close to B+"; and a thicker conductor with it where no
// fuse that its own work needs would do.
std::string fuse_text(const Checked& checked, ConductorId conductor, const std::string& where);

// Factors that lower this conductor's ampacity, as " (x 0.7 for 3 run together)"; empty where there are none.
std::string factors_text(const ConductorFigures& figures);
// Where its ampacity comes from, and the rulebook's allowance for devices where that counts.
std::string ampacity_source(const ConductorFigures& figures, Bears bears);
// Whether it has no ampacity because the rulebook has no table for its insulation; else for its size.
bool is_bound_by_insulation(const ConductorFigures& figures);
// `may_be` itself where that is its ampacity, else "no more than the 6 A of 18 AWG".
std::string may_carry_text(const ConductorFigures& figures, const std::string& may_be);

// Thicker sizes of the same system that are commonly sold, as single wires or as cables, rising.
std::vector<const WireStock*> thicker_stock(const Stock& stock, const WireSize& size, bool in_cable);

}  // namespace loomleaf
