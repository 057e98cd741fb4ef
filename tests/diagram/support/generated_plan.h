// Whole plans made up from a seed: large, ugly, and within what the language allows.
#pragma once

#include <string>
#include <vector>

namespace loomleaf::test {

// One statement a line. About `circuits` final circuits of all shapes: chains, branches, dimmers, changeovers, relays,
// connectors, converters, shared returns, chassis, tails, loops, bonds and signals, things planned for later.
std::vector<std::string> generated_plan(unsigned seed, int circuits);

// The same statements in another order.
std::string shuffled(std::vector<std::string> statements, unsigned seed);
std::string joined(const std::vector<std::string>& statements);

// Items wired at random, without sense or circuits.
std::vector<std::string> tangle(unsigned seed, int wires);

}  // namespace loomleaf::test
