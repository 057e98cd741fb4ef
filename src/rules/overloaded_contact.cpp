#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "catalogue.h"
#include "found.h"
#include "loomleaf/rules/contacts.h"
#include "steps.h"

namespace loomleaf {

namespace {

// "S1", or the pole by its terminals where the item has several: "X1.in2 to X1.out2".
std::string contact_text(const Checked& checked, const Branch& branch) {
  const Item& item = checked.plan.items[*branch.item];
  if (item.is<Switch>() || item.is<Shunt>()) {
    const Switch* as = item.as<Switch>();
    if (!as || (as->poles == 1 && as->ways == 1)) return item.id;
  }
  return fmt::format("{} to {}", terminal_text(checked.plan, branch.terminal_a),
                     terminal_text(checked.plan, branch.terminal_b));
}

// A fuse of the next rating up is what one finds beside such a contact.
constexpr double kNextRatingUp = 1.25;

// What a contact may have to pass from battery to battery over its rating; nought where either is not known.
double share_between_batteries(const Checked& checked, const Contact& contact) {
  const auto& passes = checked.study.protection.contacts[contact.branch];
  return passes && contact.rating ? passes->most / *contact.rating : 0.0;
}

Finding between_batteries(const Checked& checked, const Contact& contact) {
  const BetweenBatteries& passes = *checked.study.protection.contacts[contact.branch];
  const Branch& branch = checked.circuit.branches[contact.branch];
  Finding finding = found(overloaded_contact, checked.plan, *branch.item);
  const FigureTexts texts = set_values(finding, passes.most, *contact.rating);
  const std::vector<std::string> devices = names_of(checked.plan, passes.held_by);
  finding.message = fmt::format("{} joins batteries{}: if one is flat, {} {} {} through it, but it may carry {}",
                                contact_text(checked, branch), in_ways_text(checked.study, passes.ways),
                                listed(devices), devices.size() > 1 ? "let" : "lets", texts.is, texts.may_be);
  finding.mend = fmt::format("put a fuse of {} at most beside {}, or fit a {} of {} or more", texts.may_be,
                             finding.subjects[0], checked.plan.items[*branch.item].keyword, at_least(passes.most));
  finding.subjects.insert(finding.subjects.end(), devices.begin(), devices.end());
  finding.source = "common practice";
  return finding;
}

// Of each item of whose contacts nothing else is told the one that is the most over.
void add_between_batteries(const Checked& checked, std::vector<Finding>& findings) {
  std::set<std::string> told;
  for (const Finding& finding : findings) told.insert(finding.subjects[0]);
  std::vector<Contact> worst_of_items;
  for (const Contact& contact : contacts_of(checked.plan, checked.circuit)) {
    const ItemId item = *checked.circuit.branches[contact.branch].item;
    if (!exceeds(share_between_batteries(checked, contact), kNextRatingUp) || told.count(id_of(checked.plan, item)) > 0)
      continue;
    const bool same_item =
        !worst_of_items.empty() && checked.circuit.branches[worst_of_items.back().branch].item == item;
    if (!same_item)
      worst_of_items.push_back(contact);
    else if (share_between_batteries(checked, contact) > share_between_batteries(checked, worst_of_items.back()))
      worst_of_items.back() = contact;
  }
  for (const Contact& contact : worst_of_items) findings.push_back(between_batteries(checked, contact));
}

std::vector<Finding> check(const Checked& checked) {
  struct Over {
    BranchId branch;
    Current rating;
    double share;
  };
  std::vector<Over> worst_of_items;  // one finding an item: its contact that is the most over
  for (const Contact& contact : contacts_of(checked.plan, checked.circuit)) {
    const auto& worst = checked.study.working.branches[contact.branch];
    if (!worst || !contact.rating) continue;
    const double is = abs(worst->value).in(amperes);
    if (!exceeds(is, contact.rating->in(amperes))) continue;
    const Over over{contact.branch, *contact.rating, is / contact.rating->in(amperes)};
    const bool same_item = !worst_of_items.empty() && checked.circuit.branches[worst_of_items.back().branch].item ==
                                                          checked.circuit.branches[contact.branch].item;
    if (!same_item)
      worst_of_items.push_back(over);
    else if (over.share > worst_of_items.back().share)
      worst_of_items.back() = over;
  }
  std::vector<Finding> findings;
  for (const Over& over : worst_of_items) {
    const Branch& branch = checked.circuit.branches[over.branch];
    const auto& worst = checked.study.working.branches[over.branch];
    Finding finding = found(overloaded_contact, checked.plan, *branch.item);
    const FigureTexts texts = set_values(finding, abs(worst->value), over.rating);
    finding.message =
        fmt::format("{} carries {} in normal work{}, but may carry at most {}", contact_text(checked, branch), texts.is,
                    in_case_text(checked.study, worst->in_case), texts.may_be);
    finding.mend = fmt::format("fit a {} of {} or more as {}", checked.plan.items[*branch.item].keyword,
                               at_least(abs(worst->value)), finding.subjects[0]);
    finding.source = fmt::format("the plan's rating of {}", finding.subjects[0]);
    findings.push_back(std::move(finding));
  }
  add_between_batteries(checked, findings);
  return findings;
}

Steps work_out(const Checked& checked, const Subject& subject) {
  const ItemId* item = std::get_if<ItemId>(&subject);
  Steps steps;
  for (const Contact& contact : contacts_of(checked.plan, checked.circuit)) {
    const Branch& branch = checked.circuit.branches[contact.branch];
    if (!item || branch.item != *item) continue;
    const Steps more = overload_steps(checked, "through " + contact_text(checked, branch),
                                      checked.study.working.branches[contact.branch], contact.rating);
    steps.insert(steps.end(), more.begin(), more.end());
    if (exceeds(share_between_batteries(checked, contact), kNextRatingUp))
      steps.push_back(between_batteries(checked, contact).message + ": a finding");
  }
  return steps;
}

}  // namespace

constexpr Rule overloaded_contact = {
    "overloaded-contact",
    Severity::warning,
    "A switch, shunt, dimmer, relay contact or plug pole carries more in normal work than it is rated for; or it joins "
    "batteries, and the fuses on the way let through more than 1.25 times its rating when one is flat and the other is "
    "not.",
    "Contacts that carry too much pit, weld shut or melt their housing; a dimmer simply dies.",
    "A part of a higher rating, or a relay that carries the current while the switch only works its coil.",
    "The rating that the plan states for the part.",
    check,
    "Held against its rating is the working current through each contact, pole by pole and way by way, at its "
    "greatest over all cases. Between batteries what flows hangs on how full they are, so that the fuses alone say how "
    "much: the lesser of what comes from either side. Of contacts with another way round them nothing is said.",
    "A pump of 60 W on 12 V draws 60 W / 12 V = 5 A. Before it a switch of 6 A is no finding, one of 4 A is a "
    "finding.",
    work_out};

}  // namespace loomleaf
