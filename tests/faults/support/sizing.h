// What a careful builder takes for a current: devices, wires and contacts of a sound plan.
//
// Worked out here from the published tables in a simple and cautious way, apart from the program's own.
#pragma once

#include <string>
#include <vector>

namespace loomleaf::test {

// The smallest rating sold of the family that carries this current, A.
double device_rating(const std::string& family, double ampere);
// For final devices and for those before them, by what they are made for in volts.
std::string small_family(int system_volt);
std::string large_family();

// The thinnest wire that this device protects, in a conduit with five others, and that loses no more than `volt` over
// `metre` of wire (out and back counted by the caller) at `ampere`.
std::string wire_size(const std::string& rulebook, double device, double ampere, double metre, double volt);
std::string thinnest_wire(const std::string& rulebook);
// So many sizes thicker (or, negative, thinner): empty where there is none.
std::string other_size(const std::string& rulebook, const std::string& size, int steps);
// The largest device that a wire of this size may have, A, by the rulebook's table and allowance: insulated for 105 C,
// and for 60 C.
double best_ampere(const std::string& rulebook, const std::string& size);
double common_ampere(const std::string& rulebook, const std::string& size);
// What it may carry in normal work, insulated for 105 C.
double table_ampere(const std::string& rulebook, const std::string& size);
double ohm_per_metre(const std::string& rulebook, const std::string& size);

// The next contact or splice sold that carries this current, A.
int contact_rating(double ampere);

std::string ampere_text(double ampere);
std::string metre_text(double metre);

}  // namespace loomleaf::test
