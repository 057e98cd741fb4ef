// Names that are not the plan's own: sizes, families, rulebooks and rules, and `auto` in their stead.
#include <fmt/format.h>

#include <algorithm>

#include "loomleaf/language/words.h"
#include "properties.h"
#include "steps.h"

namespace loomleaf {

namespace {

// The nearest size of the same system that is no thinner, else the thickest.
std::string nearest_size(const WireSize& size, const std::vector<WireSize>& sizes) {
  const WireSize* best = nullptr;
  const double wanted = nominal_area(size).in(square_millimetres);
  const auto miss = [wanted](const WireSize& s) {
    const double area = nominal_area(s).in(square_millimetres);
    return area >= wanted ? area - wanted : 1e6 + wanted - area;
  };
  for (const WireSize& candidate : sizes)
    if (candidate.system == size.system && (best == nullptr || miss(candidate) < miss(*best))) best = &candidate;
  return best == nullptr ? "a size that the stock has" : to_text(*best);
}

void check_size(Draft& draft, const WireSize& size, Span span) {
  const std::vector<WireSize>& sizes = draft.known.sizes;
  if (sizes.empty() || std::find(sizes.begin(), sizes.end(), size) != sizes.end()) return;
  draft.complain(span, fmt::format("{} is no size of wire that the stock has", to_text(size)),
                 nearest_size(size, sizes));
}

void check_word(Draft& draft, std::string_view word, Span span, const std::vector<std::string>& known,
                std::string_view what) {
  if (known.empty() || std::find(known.begin(), known.end(), lower_case(word)) != known.end()) return;
  draft.complain(span, fmt::format("`{}` is no {}", word, what),
                 nearest(word, known).value_or(fmt::format("one of {}", enumerate(known, "and"))));
}

// A name as it is written, not as it is known.
void check_name(Draft& draft, const Name& name, const std::vector<std::string>& known, std::string_view what) {
  check_word(draft, draft.source.text(name.span), name.span, known, what);
}

void check_auto(Draft& draft, const Property& property) {
  const bool is_size = property.kind == PropertyKind::size;
  draft.complain(property.span, fmt::format("`auto` is not worked out yet for a {}", is_size ? "size" : "rating"),
                 is_size ? "a size, such as `2.5 mm2` or `14 AWG`; `check` then says whether it is enough"
                         : "a rating, such as `10 A`; `check` then says whether it fits");
}

void check_property(Draft& draft, const Property& property) {
  if (std::holds_alternative<Auto>(property.value)) check_auto(draft, property);
  if (const WireSize* size = std::get_if<WireSize>(&property.value)) check_size(draft, *size, property.span);
  if (const TailLeads* tails = std::get_if<TailLeads>(&property.value)) check_size(draft, tails->size, property.span);
  if (property.kind == PropertyKind::family)
    if (const Word* family = std::get_if<Word>(&property.value))
      check_word(draft, family->text, property.span, draft.known.families,
                 "kind of fuse or breaker that the stock has");
  if (property.kind == PropertyKind::insulation_kind)
    if (const Name* kind = std::get_if<Name>(&property.value))
      check_name(draft, *kind, draft.known.insulations, "kind of insulation that the stock has");
  if (property.kind == PropertyKind::rules)
    if (const Name* rules = std::get_if<Name>(&property.value))
      check_name(draft, *rules, draft.known.rulebooks, "rulebook");
}

void check_acceptance(Draft& draft, const Statement& s) {
  if (s.ids.empty()) return;
  const Name& rule = s.ids.front();
  check_name(draft, rule, draft.known.rules, "finding");
  const auto& dangers = draft.known.danger_rules;
  if (std::find(dangers.begin(), dangers.end(), lower_case(rule.id)) != dangers.end())
    draft.complain(rule.span, fmt::format("`{}` is a DANGER, and a DANGER cannot be accepted", rule.id),
                   "nothing here: mend what it finds");
}

}  // namespace

void check_names_of_stock(Draft& draft) {
  for (const Statement& statement : draft.document.statements) {
    for (const Property& property : statement.properties) check_property(draft, property);
    if (statement.keyword == Keyword::accept) check_acceptance(draft, statement);
  }
}

}  // namespace loomleaf
