// Where a fuse for one conductor has in front of it all that can flow in.
#pragma once

#include <optional>
#include <string>

#include "loomleaf/rules/rule.h"

namespace loomleaf {

// "close to F1.out", or "in W5 close to PB" where that is at the conductor's own end. Nothing where fault current comes
// from both sides, so that one fuse does not do.
std::optional<std::string> fuse_place(const Checked& checked, ConductorId conductor);

// Of a conductor that feeds nothing but tails, such as a spare core: "put a small fuse, 35 A at most, in W9 close to
// PB, or take W9 off until it is used". Nothing for any other.
std::optional<std::string> spare_text(const Checked& checked, ConductorId conductor);

}  // namespace loomleaf
