#include "draft.h"

#include <fmt/format.h>

#include "loomleaf/language/english.h"
#include "loomleaf/language/words.h"

namespace loomleaf {

namespace {

// Suggestions cost one comparison with every name; after so many the reader has enough to go on.
constexpr std::size_t most_complaints_with_suggestion = 50;

std::string_view kind_text(const Plan& plan, const Named& what) {
  if (const ItemId* item = std::get_if<ItemId>(&what)) return plan.items[*item].keyword;
  if (const RunId* run = std::get_if<RunId>(&what)) return plan.runs[*run].is_cable ? "cable" : "wire";
  if (std::holds_alternative<ConductorId>(what)) return "core";
  return std::holds_alternative<PlaceId>(what) ? "place" : "leg";
}

// What a name was looked up as, in a message.
struct Sought {
  std::string_view kinds;        // "an item"
  std::string_view declaration;  // how one could be declared
  std::string behind;            // what is written behind the name: its terminal
};

template <class... Ids>
void complain_of_name(Draft& draft, const std::string& id, Span span, const Sought& sought) {
  const Declared* declared = draft.names.find(id);
  if (declared == nullptr && draft.is_forgiven(id)) return;
  std::optional<std::string> near;
  if (draft.complaints.size() < most_complaints_with_suggestion) near = nearest(id, draft.names.names_of<Ids...>());
  if (near) *near += sought.behind;
  if (declared != nullptr)
    draft.complain(span,
                   fmt::format("`{}` is {}, and here {} is wanted", id,
                               with_article(kind_text(draft.plan, declared->what)), sought.kinds),
                   near.value_or(fmt::format("the name of {}", sought.kinds)),
                   Complaint::Also{declared->span, "declared here"});
  else
    draft.complain(
        span, fmt::format("`{}` is not declared", id),
        near.value_or(fmt::format("the name of {}, or declare it: `{} {}`", sought.kinds, sought.declaration, id)));
}

}  // namespace

Draft::Draft(const Document& written, const SourceText& text, const KnownNames& names_known)
    : document(written),
      source(text),
      known(names_known),
      forgiven_(document.lost_words.begin(), document.lost_words.end()) {}

void Draft::complain(Span span, std::string message, std::string write, std::optional<Complaint::Also> also) {
  complaints.push_back({span, std::move(message), std::move(write), std::move(also), false});
}

void Draft::declare(const Name& name, Named what) {
  const Declared* earlier = names.declare(name.id, what, name.span);
  if (earlier == nullptr) return;
  complain(name.span,
           fmt::format("`{}` is the name of {} already", name.id, with_article(kind_text(plan, earlier->what))),
           "another name", Complaint::Also{earlier->span, "first declared here"});
}

std::optional<ItemId> find_item(Draft& draft, const TerminalName& name) {
  const Declared* declared = draft.names.find(name.item);
  if (declared != nullptr && std::holds_alternative<ItemId>(declared->what)) return std::get<ItemId>(declared->what);
  const bool is_sign = name.terminal == "+" || name.terminal == "-";
  complain_of_name<ItemId>(draft, name.item, name.span,
                           {"an item", "bus", (name.terminal.empty() || is_sign ? "" : ".") + name.terminal});
  return std::nullopt;
}

std::optional<PlaceId> find_place(Draft& draft, const Name& name) {
  const Declared* declared = draft.names.find(name.id);
  if (declared != nullptr && std::holds_alternative<PlaceId>(declared->what)) return std::get<PlaceId>(declared->what);
  complain_of_name<PlaceId>(draft, name.id, name.span, {"a place", "place", ""});
  return std::nullopt;
}

std::optional<std::variant<PlaceId, LegId>> find_place_or_leg(Draft& draft, const Name& name) {
  if (const Declared* declared = draft.names.find(name.id)) {
    if (const PlaceId* place = std::get_if<PlaceId>(&declared->what)) return *place;
    if (const LegId* leg = std::get_if<LegId>(&declared->what)) return *leg;
  }
  complain_of_name<PlaceId, LegId>(draft, name.id, name.span, {"a place or a leg", "place", ""});
  return std::nullopt;
}

bool find_subject(Draft& draft, const Name& name) {
  if (draft.names.find(name.id) != nullptr) return true;
  complain_of_name<ItemId, RunId, ConductorId, PlaceId, LegId>(draft, name.id, name.span,
                                                               {"something in this plan", "bus", ""});
  return false;
}

std::string enumerate(const std::vector<std::string>& words, std::string_view last_joiner) {
  constexpr std::size_t most = 8;
  const std::size_t shown = words.size() <= most ? words.size() : most - 1;
  std::string text;
  for (std::size_t n = 0; n < shown; ++n) {
    const bool is_last = n + 1 == words.size();
    if (n > 0) text += is_last ? fmt::format(" {} ", last_joiner) : ", ";
    text += words[n];
  }
  if (shown < words.size()) text += fmt::format(" {} {} more", last_joiner, words.size() - shown);
  return text;
}

}  // namespace loomleaf
