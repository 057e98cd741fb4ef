// Where a chafed wire is assumed to touch metalwork that is bonded to a supply's -.
#pragma once

#include <vector>

#include "short_places.h"

namespace loomleaf {

struct MetalworkShort {
  ShortPlace place;
  ConductorId shorted;  // touches it with its far end
  ItemId metal;
};

// For each device that feeds something the electrically farthest conductor's end behind it and before any further
// device, against each piece of metalwork (of very many pieces the first 64): there its current is least, and it takes
// longest to open. Of what is bonded to one return the pieces with the thickest bond count, frame and engine; others
// are taken for cases of appliances, which only the appliance's own wires can touch.
std::vector<MetalworkShort> metalwork_shorts(const Plan& plan, const Circuit& circuit, const FaultSupplies& supplies,
                                             const ShortPlaces& places,
                                             const IndexedList<ConductorOf, ConductorFigures>& figures);

}  // namespace loomleaf
