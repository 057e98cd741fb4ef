// What the rules find in a plan's text.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "support/examined.h"

namespace loomleaf::test {

// The findings of one rule.
std::vector<Finding> findings_of(std::string_view rule, const std::string& text);

// Whether a rule has anything to say of this plan.
bool fires(std::string_view rule, const std::string& text);

// "RULE SUBJECT" of each finding, in the order given: for a glance at all that a plan yields.
std::vector<std::string> all_found(const std::string& text);

// examples/faulty/RULE.loom as it stands, and with each line that a "# instead:" line follows replaced by it.
std::string faulty_example(std::string_view rule);
std::string mended(const std::string& text);

// A sound circuit that tests add to or change: a battery, a fuse and a bus on either side of it. What is on PB and NB
// is protected by 10 A; everything carries 30 A.
inline const std::string sound_base = R"(
system 12 V   rules rv   drop 3 %
source BAT  12.8 V  low 12.0 V  100 Ah  max 100 A  short-circuit 500 A
fuse   F1   10 A  blade
bus    PB   100 A  40 ways
bus    NB   100 A  40 ways
wire   M1   BAT+ to F1   10 AWG red    100 mm
wire   M2   F1   to PB   10 AWG red    100 mm
wire   M3   NB   to BAT- 10 AWG black  100 mm
)";
// One plain lamp, so that nothing is left unused.
inline const std::string a_lamp = R"(
load   LMP  6 W
wire   L1   PB   to LMP+ 10 AWG red    1 m
wire   L2   LMP- to NB   10 AWG black  1 m
)";

}  // namespace loomleaf::test
