// What stands beside each piece: its ID and rating large, then what it is, where it is and what hides it.
#include <fmt/format.h>

#include <set>

#include "loomleaf/units/format.h"
#include "parts.h"

namespace loomleaf {
namespace {

std::string rating(const std::optional<Current>& current) { return current ? to_text(*current) : ""; }

struct RatingText {
  std::string operator()(const Source& s) const {
    std::string text = to_text(s.nominal);
    if (s.charge) text += fmt::format(" {} Ah", to_text(s.charge->in(ampere_hours), 1));
    if (s.is_limited()) text += " " + to_text(s.limit);
    return text;
  }
  std::string operator()(const Device& d) const { return d.rating ? to_text(*d.rating) : "auto"; }
  // The symbol shows the ways; that all can be closed at once is said.
  std::string operator()(const Switch& s) const {
    return rating(s.rating) + (s.both ? s.rating ? " both" : "both" : "");
  }
  std::string operator()(const Shunt& s) const { return rating(s.rating); }
  std::string operator()(const Dimmer& d) const { return rating(d.rating); }
  std::string operator()(const Relay& r) const { return rating(r.contact_rating); }
  std::string operator()(const Converter& c) const {
    std::string text = c.in_voltage ? to_text(*c.in_voltage) + " to " : "to ";
    text += to_text(c.out_voltage);
    if (c.rating) text += " " + to_text(*c.rating);
    return text;
  }
  std::string operator()(const Splice& s) const { return rating(s.rating); }
  std::string operator()(const Bus& b) const { return rating(b.rating); }
  std::string operator()(const Connector& c) const {
    return c.pole_ratings.empty() ? "" : rating(c.pole_ratings.front());
  }
  std::string operator()(const Chassis&) const { return ""; }
  std::string operator()(const Tail&) const { return ""; }
  std::string operator()(const Load& l) const {
    if (l.power) return to_text(*l.power);
    return l.current ? to_text(*l.current) : "";
  }
};

std::string kind_text(const Item& item) {
  if (const Device* device = item.as<Device>()) return device->family;
  if (const Shunt* shunt = item.as<Shunt>(); shunt && shunt->resistance)
    return fmt::format("{:.3g}\u00a0mohm", shunt->resistance->in(milliohms));  // not broken before its unit
  return "";
}

// An item `on` something stands where that stands; what it stands on says so.
std::string place_text(const Plan& plan, const Item& item) {
  if (!item.standing) return "";
  const Place& place = plan.places[item.standing->place];
  std::string text = place.description.empty() ? place.id : place.description;
  if (item.standing->offset) text += " " + to_text(*item.standing->offset);
  return text;
}

std::string hidden_text(const Plan& plan, const Item& item) {
  if (!item.standing) return "";
  const Place& place = plan.places[item.standing->place];
  if (place.cover.empty()) return "";
  return fmt::format("{} {}", place.removable ? "under" : "hidden:", place.cover);
}

// Statements and groups of the joints on the feed side: the joint beside one, of the same statement, need not say it
// all again.
std::set<std::pair<std::uint32_t, std::size_t>> joints_on_feed(const FigureMaking& making) {
  std::set<std::pair<std::uint32_t, std::size_t>> joints;
  for (const Piece& piece : making.figure.pieces)
    if (piece.form == PieceForm::bar && !piece.on_return)
      joints.emplace(making.plan.items[piece.item].span.begin, piece.group);
  return joints;
}

void add(Piece& piece, std::string text, bool large = false) {
  if (!text.empty()) piece.texts.push_back({std::move(text), large});
}

}  // namespace

void write_texts(FigureMaking& making) {
  const std::set<std::pair<std::uint32_t, std::size_t>> feed_joints = joints_on_feed(making);
  for (Piece& piece : making.figure.pieces) {
    const Item& item = making.plan.items[piece.item];
    const bool coil = piece.symbol == "coil", further = piece.symbol == "terminal";
    add(piece, piece.short_name, true);
    if (further) continue;
    if (!coil) add(piece, std::visit(RatingText{}, item.data), true);
    if (piece.form == PieceForm::bar && piece.on_return && feed_joints.count({item.span.begin, piece.group}) > 0)
      continue;
    const FigureGroup& group = making.figure.groups[piece.group];
    std::string what = kind_text(item);
    if (item.description != group.title && !coil)
      what = what.empty() ? item.description : item.description.empty() ? what : item.description + ", " + what;
    add(piece, what);
    if (!item.on) {
      add(piece, place_text(making.plan, item));
      add(piece, hidden_text(making.plan, item));
    }
    if (item.later) add(piece, "later, not fitted");
  }
}

}  // namespace loomleaf
