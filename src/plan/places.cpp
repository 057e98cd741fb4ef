#include "item_data.h"
#include "properties.h"
#include "steps.h"

namespace loomleaf {

namespace {

void declare_places(Draft& draft) {
  for (const Statement& s : draft.document.statements) {
    if (s.keyword != Keyword::place) continue;
    Place place;
    place.description = s.description.value_or("");
    place.cover = text_under(s, PropertyKind::cover);
    place.removable = says(s, PropertyKind::removable);
    place.ambient = given<Temperature>(s, PropertyKind::ambient);
    place.sheathed = says(s, PropertyKind::sheathed);
    place.span = s.span;
    for (const Name& name : s.ids) {
      place.id = name.id;
      draft.declare(name, draft.plan.places.add(place));
    }
  }
}

std::optional<Standing> standing_at(Draft& draft, const Position& position) {
  const auto place = find_place(draft, position.place);
  if (!place) return std::nullopt;
  return Standing{*place, position.offset};
}

// Nothing where the statement does not make a leg, of which there is then a complaint.
std::optional<Leg> read_leg(Draft& draft, const Statement& s) {
  const auto length = given<Length>(s, PropertyKind::length);
  if (s.leg_ends.size() != 2) return std::nullopt;
  const auto from = standing_at(draft, s.leg_ends[0]), to = standing_at(draft, s.leg_ends[1]);
  if (!from || !to || !length) return std::nullopt;
  if (from->place == to->place && from->offset == to->offset) {
    draft.complain(s.leg_ends[1].place.span, "this leg ends where it begins", "the place that it leads to");
    return std::nullopt;
  }
  Leg leg;
  leg.from = *from;
  leg.to = *to;
  leg.length = *length;
  leg.conduit_bore = given<Length>(s, PropertyKind::conduit);
  leg.bundle = says(s, PropertyKind::bundle);
  leg.slack = given<Length>(s, PropertyKind::slack).value_or(Length{});
  leg.sheathed = says(s, PropertyKind::sheathed);
  leg.span = s.span;
  if (!s.ids.empty()) leg.id = s.ids.front().id;
  return leg;
}

void declare_leg(Draft& draft, const Statement& s) {
  if (s.ids.size() > 1) draft.complain(s.ids[1].span, "a leg has one name", "a `leg` of its own for each");
  const auto leg = read_leg(draft, s);
  if (!leg) {
    for (const Name& name : s.ids) draft.forgive(name.id);
    return;
  }
  const LegId id = draft.plan.legs.add(*leg);
  if (!s.ids.empty()) draft.declare(s.ids.front(), id);
}

bool says_where(const Statement& s) {
  return s.keyword == Keyword::place || s.keyword == Keyword::leg || declares_item(s.keyword);
}

}  // namespace

void declare_places_and_legs(Draft& draft) {
  const std::size_t complaints_before = draft.complaints.size();
  declare_places(draft);
  for (const Statement& s : draft.document.statements)
    if (s.keyword == Keyword::leg) declare_leg(draft, s);
  draft.plan.ways_unclear = draft.complaints.size() > complaints_before || !draft.document.lost_words.empty();
  for (const Statement& s : draft.document.statements)
    if (says_where(s) && s.troubled) draft.plan.ways_unclear = true;
}

}  // namespace loomleaf
