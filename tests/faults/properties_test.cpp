// What must hold whatever the plan: a change for the worse never silences a finding, and neither the order of the
// statements nor the names have a say in what is found.
#include <fmt/format.h>
#include <gmock/gmock.h>

#include <algorithm>
#include <cctype>
#include <functional>
#include <map>
#include <set>

#include "faults/support/mistakes.h"
#include "support/examined.h"

namespace loomleaf::test {
namespace {

constexpr unsigned seeds = 7;
constexpr int conductors = 100;

struct Faulty {
  SoundPlan plan;
  std::string subject;
};

// A plan with this mistake; no subject where the seed offers no place for it.
Faulty faulty(const Mistake& mistake, unsigned seed) {
  Faulty made{sound_plan(seed, conductors), ""};
  Dice dice(seed);
  made.subject = mistake.put(made.plan, dice);
  return made;
}

// Every mistake of these rules (none: of any), in several plans.
void for_faulty(const std::set<std::string>& rules,
                const std::function<void(const Mistake&, unsigned, Faulty&)>& test) {
  int tried = 0;
  for (const Mistake& mistake : all_mistakes()) {
    if (!rules.empty() && !rules.count(mistake.rule)) continue;
    for (unsigned seed = 1; seed <= seeds; ++seed) {
      Faulty made = faulty(mistake, seed);
      if (made.subject.empty()) continue;
      SCOPED_TRACE(fmt::format("{}, seed {}", mistake.name, seed));
      test(mistake, seed, made);
      ++tried;
    }
  }
  EXPECT_GT(tried, 0);
}

using Told = std::set<std::string>;  // "RULE SUBJECT", the first subject alone

Told told(const std::string& text, const std::set<std::string>& rules) {
  Told told;
  for (const Finding& finding : examined(text).findings)
    if (rules.empty() || rules.count(finding.rule)) told.insert(finding.rule + " " + finding.subjects.front());
  return told;
}

Told missing(const Told& before, const Told& after) {
  Told missing;
  std::ranges::set_difference(before, after, std::inserter(missing, missing.end()));
  return missing;
}

bool has_rule(const Told& told, const std::string& rule) {
  return std::ranges::any_of(told, [&](const std::string& one) { return one.starts_with(rule + " "); });
}

TEST(Properties, RaisingAFuseSilencesNoMismatch) {
  const std::set<std::string> rules = {"gauge-mismatch", "short-not-cleared"};
  for_faulty(rules, [&](const Mistake&, unsigned seed, Faulty& made) {
    const Told before = told(made.plan.text(), rules);
    Dice dice(seed + 5);
    for (int raised = 0; raised < 3; ++raised) {
      std::vector<Statement*> devices;
      for (Statement& statement : made.plan.statements.list())
        if (statement.keyword == "fuse" || statement.keyword == "breaker") devices.push_back(&statement);
      Statement& device = *dice.one_of(devices);
      device.tell("rating", ampere_text(1.5 * std::stod(device.piece("rating"))));
      EXPECT_THAT(missing(before, told(made.plan.text(), rules)), testing::IsEmpty()) << device.id;
    }
  });
}

// Without the plan's loops, in which a thinner wire sends the current another way.
bool is_a_tree(const SoundPlan& plan) {
  return std::ranges::none_of(plan.circuits, [](const SoundCircuit& at) { return at.kind == CircuitKind::ring; }) &&
         plan.banks[0].batteries.size() == 1;
}

TEST(Properties, ThinningAWireSilencesNothingOnIt) {
  int thinned = 0;
  for (const Mistake& mistake : all_mistakes()) {
    if (mistake.rule != "gauge-mismatch" && mistake.rule != "overloaded-wire" && mistake.rule != "voltage-drop")
      continue;
    for (unsigned seed = 1; seed <= 60; ++seed) {
      SoundPlan plan = sound_plan(seed, 25);
      if (!is_a_tree(plan)) continue;
      Dice dice(seed);
      const std::string subject = mistake.put(plan, dice);
      if (subject.empty()) continue;
      SCOPED_TRACE(fmt::format("{}, seed {}", mistake.name, seed));
      const Told before = told(plan.text(), {"gauge-mismatch", "overloaded-wire", "voltage-drop"});
      for (Statement& wire : plan.statements.list()) {
        if (wire.keyword != "wire" || wire.tells("bond") || wire.tells("signal")) continue;
        const std::string size = wire.piece("size"), thinner = other_size(plan.rulebook, size, -1);
        if (thinner.empty()) continue;
        wire.tell("size", thinner);
        const Told after = told(plan.text(), {});
        wire.tell("size", size);
        ++thinned;
        for (const std::string& lost : missing(before, after)) {
          const std::string on = lost.substr(lost.find(' ') + 1);
          const bool replaced = lost.starts_with("voltage-drop") && has_rule(after, "low-voltage");
          // Of a wire only what is said of itself counts, of a load what it loses.
          const bool counts = on == wire.id || lost.starts_with("voltage-drop");
          EXPECT_TRUE(replaced || !counts) << lost << " is gone with " << wire.id << " made " << thinner;
        }
      }
    }
  }
  EXPECT_GT(thinned, 100);
}

TEST(Properties, AFurtherLoadSilencesNothingBeforeIt) {
  const std::set<std::string> rules = {"overloaded-wire",   "overloaded-splice", "overloaded-bus", "overloaded-contact",
                                       "overloaded-source", "fuse-too-small",    "voltage-drop"};
  for_faulty(rules, [&](const Mistake&, unsigned seed, Faulty& made) {
    Dice dice(seed + 9);
    const SoundCircuit* circuit =
        pick_circuit(made.plan, dice, {CircuitKind::lamps_in_a_chain, CircuitKind::plug, CircuitKind::branches});
    if (!circuit) return;
    const Told before = told(made.plan.text(), rules);
    const std::string& beside = circuit->loads.back();
    made.plan.statements.add("load", "LX", {{"power", "10 W"}, {"rated", fmt::format("{} V", circuit->volt)}});
    made.plan.statements.add_wire("WX", beside + "+", "LX+", circuit->size, "red", "0.5 m");
    made.plan.statements.add_wire("WY", "LX-", beside + "-", circuit->size, "black", "0.5 m");
    // Where nothing works any more `low-voltage` takes the place of all figures.
    const Told after = told(made.plan.text(), {});
    if (has_rule(after, "low-voltage")) return;
    EXPECT_THAT(missing(before, after), testing::IsEmpty());
  });
}

// All that a finding says but its wording, which lists names in the order of the plan.
std::multiset<std::string> gist(const std::string& text, const std::map<std::string, std::string>& names = {}) {
  std::multiset<std::string> gist;
  for (const Finding& finding : examined(text).findings) {
    std::set<std::string> subjects;
    for (const std::string& subject : finding.subjects) {
      const std::size_t dot = std::min(subject.find('.'), subject.size());
      const auto known = names.find(subject.substr(0, dot));
      subjects.insert((known == names.end() ? subject.substr(0, dot) : known->second) + subject.substr(dot));
    }
    std::string values;
    if (finding.values) values = fmt::format("{:.6g} {:.6g}", finding.values->is, finding.values->may_be);
    gist.insert(fmt::format("{} {}: {}", finding.rule, fmt::join(subjects, ", "), values));
  }
  return gist;
}

TEST(Properties, OrderOfStatementsChangesNoFinding) {
  for_faulty({}, [](const Mistake&, unsigned seed, Faulty& made) {
    const auto before = gist(made.plan.text());
    Dice(seed).shuffle(made.plan.statements.list());
    EXPECT_EQ(gist(made.plan.text()), before);
  });
}

// What a short at the far end of each conductor draws, and how soon it is over.
std::map<std::string, FarShort> shorts(const std::string& text) {
  std::map<std::string, FarShort> shorts;
  const Examination examination = examined(text);
  for (const ConductorId id : examination.plan.conductors.ids())
    if (const auto& at_far_end = examination.study.shorts.conductors[id])
      shorts[examination.plan.conductors[id].id] = *at_far_end;
  return shorts;
}

TEST(Properties, OrderOfStatementsChangesNoShortCircuit) {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    SCOPED_TRACE(seed);
    SoundPlan plan = sound_plan(seed, 150);
    const auto before = shorts(plan.text());
    ASSERT_FALSE(before.empty());
    Dice(seed).shuffle(plan.statements.list());
    const auto after = shorts(plan.text());
    ASSERT_EQ(after.size(), before.size());
    for (const auto& [id, was] : before) {
      const FarShort& is = after.at(id);
      EXPECT_NEAR(is.current.in(amperes), was.current.in(amperes), 1e-6 * was.current.in(amperes)) << id;
      const auto lasts = [](const FarShort& of) { return of.clears.value_or(seconds(0)).in(seconds); };
      EXPECT_EQ(is.clears.has_value(), was.clears.has_value()) << id;
      EXPECT_NEAR(lasts(is), lasts(was), 1e-5 * lasts(was)) << id;
    }
  }
}

// Every ID of the plan by another one. `back` gives the first for the second.
std::string renamed(const SoundPlan& plan, unsigned seed, std::map<std::string, std::string>& back) {
  std::vector<std::string> ids;
  for (const Statement& statement : plan.statements.list())
    if (!statement.id.empty()) ids.push_back(statement.id);
  Dice(seed).shuffle(ids);
  std::map<std::string, std::string> other;
  for (std::size_t i = 0; i < ids.size(); ++i) {
    other[ids[i]] = fmt::format("Q{}", 100 + i);
    back[other[ids[i]]] = ids[i];
  }
  const auto in_word = [](char letter) { return std::isalnum(static_cast<unsigned char>(letter)) != 0; };
  const std::string text = plan.text();
  std::string result;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = at;
    while (end < text.size() && in_word(text[end])) ++end;
    const std::string word = text.substr(at, end - at);
    const auto found = other.find(word);
    result += found == other.end() ? word : found->second;
    at = end;
    while (at < text.size() && !in_word(text[at])) result += text[at++];
  }
  return result;
}

TEST(Properties, OtherNamesChangeNoFinding) {
  for_faulty({}, [](const Mistake& mistake, unsigned seed, Faulty& made) {
    if (mistake.rule == "same-label") return;
    std::map<std::string, std::string> back;
    const std::string text = renamed(made.plan, seed, back);
    EXPECT_EQ(gist(text, back), gist(made.plan.text()));
  });
}

}  // namespace
}  // namespace loomleaf::test
