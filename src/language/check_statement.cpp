#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

#include "loomleaf/language/english.h"
#include "names.h"
#include "statement_parts.h"

namespace loomleaf {
namespace {

using K = Keyword;
using P = PropertyKind;

// A statement without any of `one_of` cannot be used.
struct Need {
  KeywordSet on;
  std::array<P, 2> one_of;
  std::string_view without;  // "a rating"
  std::string_view example;
};
constexpr auto needs = std::to_array<Need>({
    {one(K::fuse) | one(K::breaker), {P::rating, P::rating}, "a rating", "5 A"},
    {one(K::load), {P::power, P::current}, "its watts or amps", "3 W"},
    {one(K::source), {P::voltage, P::voltage}, "a voltage", "12.8 V"},
    {one(K::converter), {P::out_voltage, P::out_voltage}, "its output voltage", "out 12 V"},
    {one(K::converter), {P::rating, P::rating}, "the amps of its output", "20 A"},
    {one(K::leg), {P::length, P::length}, "a length", "1.6 m"},
    {one(K::spool), {P::size, P::size}, "a size", "18 AWG"},
    {one(K::spool), {P::length, P::length}, "the length on hand", "30 m"},
});

// Two properties that say the same in two ways, or that cannot both hold.
struct Clash {
  P first, second;
  std::string_view why;
};
constexpr auto clashes = std::to_array<Clash>({
    {P::power, P::current, "a load has its watts or its amps: one of them is enough"},
    {P::coil_power, P::coil_resistance, "a coil has its watts or its ohms: one of them is enough"},
    {P::short_circuit, P::internal_resistance,
     "a battery has its short-circuit current or its internal resistance: one of them is enough"},
    {P::length, P::plus, "a given length is the whole length; `plus` is for a length that the legs give"},
    {P::bond, P::signal, "a bond carries fault current, a signal does not: it is one or the other"},
});

// What only a battery has, and what only the other sources have.
constexpr auto of_batteries = std::to_array<P>({P::charge, P::max_current, P::short_circuit, P::internal_resistance});
constexpr auto of_limited = std::to_array<P>({P::limit_current, P::yield});

class Check {
 public:
  Check(Cursor& cursor, const Statement& statement) : cursor_(cursor), statement_(statement) {}

  void run() {
    check_needs();
    check_clashes();
    if (statement_.keyword == K::source) check_source();
    if (statement_.keyword == K::load) check_order(P::min_voltage, P::max_voltage);
    if (statement_.keyword == K::switch_) {
      check_drawn_way();
      check_both();
    }
    if (statement_.keyword == K::connector) check_pole_numbers();
    if (statement_.keyword == K::place) check_cover();
    if (statement_.keyword == K::accept) check_reason();
    if (has(property_set(statement_), K::cable)) check_cores();
    if (statement_.keyword == K::wire || statement_.keyword == K::cable) check_ends();
    check_spacing();
  }

  // `load motor 60 W`: a name, or the kind?
  void check_kind_as_name() {
    if (find(P::kind) != nullptr || statement_.ids.empty()) return;
    const auto kinds = kind_words(statement_.keyword);
    const std::string name = lower_case(statement_.ids.front().id);
    if (std::ranges::find(kinds, name) == kinds.end()) return;
    const std::string_view keyword = name_of(statement_.keyword);
    cursor_.complain(
        name_span(),
        fmt::format("`{}` can be meant as the name of this {} or as its kind", statement_.ids.front().id, keyword),
        fmt::format("{} {} {}", keyword, statement_.ids.front().id, name));
  }

 private:
  const Property* find(P kind) const {
    const auto found = std::ranges::find(statement_.properties, kind, &Property::kind);
    return found == statement_.properties.end() ? nullptr : &*found;
  }
  template <class T>
  const T* value(P kind) const {
    const Property* property = find(kind);
    return property == nullptr ? nullptr : std::get_if<T>(&property->value);
  }
  Span name_span() const { return statement_.ids.empty() ? statement_.span : statement_.ids.front().span; }

  void check_needs() {
    std::string lacks, write = title_with_ends();
    for (const Need& need : needs) {
      if (!has(need.on, statement_.keyword) || find(need.one_of[0]) || find(need.one_of[1])) continue;
      lacks += fmt::format("{}{}", lacks.empty() ? "" : " and ", need.without);
      write += fmt::format(" {}", need.example);
    }
    if (!lacks.empty())
      cursor_.complain(name_span(), fmt::format("this {} lacks {}", name_of(statement_.keyword), lacks), write);
  }

  std::string title_with_ends() const {
    std::string title = title_of(statement_);
    if (statement_.leg_ends.size() == 2)
      title += fmt::format(" {} to {}", statement_.leg_ends[0].place.id, statement_.leg_ends[1].place.id);
    return title;
  }

  void check_clashes() {
    for (const Clash& clash : clashes) {
      const Property *first = find(clash.first), *second = find(clash.second);
      if (first == nullptr || second == nullptr) continue;
      if (first->span.begin > second->span.begin) std::swap(first, second);
      Complaint complaint{second->span, std::string(clash.why), std::string(cursor_.source(first->span)), {}};
      complaint.also = Complaint::Also{first->span, "the other is here"};
      cursor_.complain(std::move(complaint));
    }
  }

  void check_source() {
    const auto* kind = value<Word>(P::kind);
    const bool battery = kind == nullptr || kind->text == "battery";
    for (const P property : battery ? std::span<const P>(of_limited) : std::span<const P>(of_batteries))
      if (const Property* found = find(property)) complain_of_other_kind(*found, battery ? "battery" : kind->text);
    if (!battery && find(P::limit_current) == nullptr && find(P::max_current) == nullptr)
      cursor_.complain(name_span(), fmt::format("this {} lacks the most that it can give", kind->text),
                       fmt::format("{} {} limit 20 A", title_of(statement_), kind->text));
    check_order(P::low_voltage, P::voltage);
    check_order(P::low_voltage, P::high_voltage);
    check_order(P::voltage, P::high_voltage);
  }

  // A battery has its `max`, the other sources have their `limit`.
  void complain_of_other_kind(const Property& property, const std::string& kind) {
    const std::string written(cursor_.source(property.span));
    const auto figure = [&] { return written.substr(std::min(written.find(' '), written.size())); };
    if (property.kind == P::limit_current)
      cursor_.complain(property.span, "a battery has no `limit`: what it may deliver all day is its `max`",
                       "max" + figure());
    else if (property.kind == P::max_current)
      cursor_.complain(
          property.span,
          fmt::format("only a battery has a `max`: the most that {} gives is its `limit`", with_article(kind)),
          "limit" + figure());
    else
      cursor_.complain(property.span,
                       kind == "battery"
                           ? fmt::format("a battery has no `{}`", written)
                           : fmt::format("only a battery has `{}`, and this is {}", written, with_article(kind)),
                       {});
  }

  void check_order(P less, P more) {
    const auto *a = value<Voltage>(less), *b = value<Voltage>(more);
    if (a == nullptr || b == nullptr || *a <= *b) return;
    const Span span = find(less)->span, other = find(more)->span;
    Complaint complaint{
        span, fmt::format("`{}` is more than `{}`", cursor_.source(span), cursor_.source(other)), {}, {}};
    complaint.also = Complaint::Also{other, "the other is here"};
    cursor_.complain(std::move(complaint));
  }

  void check_drawn_way() {
    const auto* drawn = value<Drawn>(P::drawn);
    const auto* ways = value<int>(P::ways);
    const int count = ways == nullptr ? 1 : *ways;
    if (drawn == nullptr || drawn->way <= count) return;
    cursor_.complain(
        find(P::drawn)->span, fmt::format("this switch has {}", counted(static_cast<std::size_t>(count), "way")),
        count == 1 ? fmt::format("{} ways drawn way {}", drawn->way, drawn->way) : fmt::format("drawn way {}", count));
  }

  void check_both() {
    const auto* ways = value<int>(P::ways);
    if (find(P::both) == nullptr || (ways != nullptr && *ways > 1)) return;
    cursor_.complain(find(P::both)->span,
                     "`both` closes all the ways of a switch at once, and this one has a single way", "2 ways both");
  }

  void check_pole_numbers() {
    const auto* poles = value<int>(P::poles);
    const int count = poles == nullptr ? 1 : *poles;
    std::set<int> seen;
    for (const Property& property : statement_.properties) {
      const auto* rating = std::get_if<PoleRating>(&property.value);
      if (rating == nullptr) continue;
      if (rating->pole > count)
        cursor_.complain(property.span,
                         fmt::format("this connector has {}", counted(static_cast<std::size_t>(count), "pole")),
                         fmt::format("{} poles", rating->pole));
      if (!seen.insert(rating->pole).second)
        cursor_.complain(property.span, fmt::format("pole {} is rated twice", rating->pole), "one of the two");
    }
  }

  void check_cover() {
    if (find(P::removable) != nullptr && find(P::cover) == nullptr)
      cursor_.complain(find(P::removable)->span, "`removable` is said of a cover, and this place has none",
                       "cover \"Panel\" removable");
  }

  void check_reason() {
    if (statement_.description && statement_.description->find_first_not_of(' ') != std::string::npos) return;
    cursor_.complain(statement_.span, "what is accepted needs a reason",
                     fmt::format("{} \"why\"", cursor_.source(statement_.span)));
  }

  void check_cores() {
    const auto* colours = value<std::vector<WireColour>>(P::cores);
    const auto* count = value<int>(P::core_count);
    if (colours == nullptr || count == nullptr || static_cast<int>(colours->size()) == *count) return;
    Complaint complaint{find(P::cores)->span, fmt::format("{} colours for {} cores", colours->size(), *count), {}, {}};
    complaint.also = Complaint::Also{find(P::core_count)->span, "the count is here"};
    cursor_.complain(std::move(complaint));
  }

  void check_ends() {
    const std::string_view keyword = name_of(statement_.keyword);
    if (statement_.ends.empty())
      return cursor_.complain(name_span(), fmt::format("this {} joins nothing", keyword),
                              fmt::format("{} BAT+ to F1", title_of(statement_)));
    const std::size_t links = statement_.ends.size() - 1;
    const std::size_t names = statement_.ids.size();
    if (names != links)
      cursor_.complain(name_span(),
                       fmt::format("{} {} and {} `to`: each `to` makes one {}", names, names == 1 ? "name" : "names",
                                   links, keyword),
                       names == 1 ? range_text(statement_.ids.front().id, links) : fmt::format("{} times `to`", names));
    if (statement_.keyword != K::wire) return;
    for (const EndList& end : statement_.ends)
      if (end.terminals.size() > 1)
        cursor_.complain(end.span,
                         fmt::format("a wire has one terminal at each end, and here are {}", end.terminals.size()),
                         "a cable, or a wire for each");
  }

  void check_spacing() {
    const auto* position = value<Position>(P::at);
    if (position == nullptr || !position->every || statement_.ids.size() > 1) return;
    cursor_.complain(find(P::at)->span, "`every` spaces out several items, and here is one",
                     fmt::format("at {}", position->place.id));
  }

  Cursor& cursor_;
  const Statement& statement_;
};

}  // namespace

void check_statement(Cursor& cursor, const Statement& statement) {
  Check check(cursor, statement);
  check.check_kind_as_name();
  if (!cursor.troubled()) check.run();
}

}  // namespace loomleaf
