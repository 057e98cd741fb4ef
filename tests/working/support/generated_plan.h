// Installations as people build them, put together at random.
#pragma once

#include <cstdint>
#include <string>

namespace loomleaf::test {

// The text of a plan: batteries single, side by side, in series or behind a changeover; circuits that branch, ring and
// run in parallel; loads of every kind; converters, chargers, relays, starters. The same seed gives the same plan.
std::string generated_plan(std::uint32_t seed);

}  // namespace loomleaf::test
