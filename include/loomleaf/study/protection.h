// What can flow into each conductor in a fault, what stands before it, and whether the rulebook tolerates it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/conductor_figures.h"
#include "loomleaf/study/sides.h"
#include "loomleaf/study/ways.h"

namespace loomleaf {

enum class ConductorSide { none, feed, return_, bond, signal };

// Why an exposed conductor is no finding, or is one.
enum class Exposure {
  protected_,          // let-through within what it may carry
  tolerated,           // exposed, within the rulebook's length on a stretch that ends in devices
  too_far,             // its exposed length is over what the rulebook tolerates
  too_thin_for_device, // thinner than the device beyond it asks
  open_stretch,        // the stretch ends in something other than a device or a source terminal
  exposed_return,      // a return is never tolerated
};

struct ConductorProtection {
  ConductorSide side = ConductorSide::none;
  std::optional<Current> let_through;      // absent where unbounded
  bool unbounded = false;                  // a battery reaches it through no device
  std::vector<ItemId> protected_by;        // the cut nearest to the conductor: devices and limited sources, in the plan's order
  bool by_paired_feed = false;             // a return: the let-through is what the feed takes that it pairs with
  bool exposed = false;
  std::optional<Length> exposed_length;    // absent for a return and where not exposed
  std::optional<PositionRow> tolerance;    // the row of the rulebook it was held against
  Exposure exposure = Exposure::protected_;
  std::vector<ItemId> beyond;              // too_thin_for_device: the device whose rating counts; open_stretch: where it ends
  std::vector<ConductorId> further;        // open_stretch: the conductors that it goes on as without a device (of many ends the first dozen)
  std::optional<Current> beyond_rating;
  std::optional<TerminalId> fed_at;        // where the length that counts starts: the gravest feeding point, or as far on
                                           // from it as the way bears all that comes from there
  std::optional<Length> reach;             // from there to the far end: what was held against `tolerance`
  std::size_t ways = 0;                    // which of the ways the let-through belongs to
};

// What a contact may have to pass from batteries on one side of it to those on the other, as one is flat: the lesser of
// what the devices let through from either side.
struct BetweenBatteries {
  Current most{};
  std::vector<ItemId> held_by;  // in the plan's order
  std::size_t ways = 0;
};

struct Protection {
  IndexedList<ConductorOf, ConductorProtection> conductors;
  IndexedList<BranchOf, std::optional<BetweenBatteries>> contacts;  // absent where no devices hold it, or nothing passes
};

// Minimum cuts, feed and return, over every standing of the changeovers, then stretches against the rulebook.
//
// A return is asked for what can pass over it: what the loads bring to one end, from those supplies whose own - is reached
// from its other end. Conductors and contacts between the same two points as it are taken away with it, for what passes
// over them passes one way: of a converter's two negatives to one bus each carries the greater of what its input and what
// its output brings, not both.
//
// A battery that holds less, or that has failed, is a load to the others. Batteries whose + meet through no device, or that
// stand in series, are one bank, which nothing in it feeds: what holds them together is a matter for the feed side. Any
// choice of banks may be fed; their batteries are then shorted from + to - and no supplies. Those of whose - none is
// reached from the other end always are. The greatest over all choices counts (of more than four that may be either, each
// alone and all but each are tried, of more than sixteen none; a return in a ring is then held to what each sends over
// it, added up, which is no less).
//
// Of a return in a ring (two ways lead on from it that meet at no point but its ends) a supply and a load only count
// together where some way home from that load to that supply's own - passes over it and meets no point twice: what is
// joined to the ring at one point, supply and load, has nothing to seek in it. Where the ring has branches across, the
// way may pass over the return in either direction. What the supplies joined at each point send over it is added up;
// it counts where it is less than what all of them bring to all loads.
//
// An exposed length that begins at a battery's + is measured from the bank: it begins anew at the + of each further
// battery on the way that no contact parts from the first, a lead that ends at one is measured from there, and of a link
// of up to 0.5 m from post to post half of it counts, since no point of it is farther from a post (common practice, no
// source: the books speak of the supply's terminal). Of pieces side by side, and of ways alike in length, each has to
// bear the largest device beyond.
//
// A return is also asked for what one fault brings from a point of the feed to the return beside it. It pairs with a
// branch of the feed where
// - taking that branch away cuts what is fed behind it off from the + of every supply, and taking the return away cuts
//   all of this off from the - of every supply (loads, coils and converters' inputs that may be shorted as above); and
// - where one device further on has all of it behind it (a panel with one circuit), or all of it passes one device
//   before the return, so that this does not yet say which piece of the return lies beside: a bus bar lies between them
//   and the return, and no more bus bars lie between the supplies and the return than between them and the branch (of
//   a branch that is no device: with the bars that both end at away from the supplies).
// It then must bear what flows in at the branch's supply end, through a device no more than its rating. The greatest
// counts, not their sum. What a battery feeds without a device is a matter for the feed side; feeds and returns in a
// ring have no such pair. The same is asked again of the batteries alone, as if no other supply were there: a charger
// on the bus bars does not keep them from sending their own over the mains.
// NEC 552.10(E)(1) wants every conductor protected by its ampacity; a negative main as thick as the positive: common
// practice, no source.
Protection study_protection(const Plan& plan, const Routes& routes, const Circuit& circuit,
                            const IndexedList<ConductorOf, ConductorFigures>& figures, const Rulebook& rulebook,
                            const std::vector<Ways>& ways, const std::vector<Sides>& sides);

}  // namespace loomleaf
