#include "loomleaf/route/dump.h"

#include <fmt/format.h>

#include "loomleaf/units/format.h"

namespace loomleaf {

std::string dump(const Plan& plan, const Routes& routes) {
  std::string text;
  for (const RunId id : plan.runs.ids()) {
    const Route& route = routes.runs[id];
    text += fmt::format("{} {}:", plan.runs[id].id, to_text(route.length));
    for (const PlaceId place : route.places) text += " " + plan.places[place].id;
    if (route.warmest) text += " " + to_text(*route.warmest);
    if (route.sheathed_throughout) text += " sheathed";
    text += "\n";
  }
  return text;
}

}  // namespace loomleaf
