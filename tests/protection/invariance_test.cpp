// What must hold whatever the circuit.
#include <gtest/gtest.h>

#include <map>
#include <set>

#include "protection/support/judge.h"
#include "protection/support/random_plan.h"
#include "protection/support/renumbered.h"

namespace loomleaf {
namespace {

using namespace test;

TEST(LetThroughOfAnyCircuit, NeverFallsWhenAFuseIsRaised) {
  std::size_t risen = 0;
  for (unsigned seed = 1; seed <= 60; ++seed) {
    const TestPlan built = random_plan(seed);
    const Judged before = judge(built);
    for (const ItemId fuse : built.plan.items.ids()) {
      if (!built.plan.items[fuse].is<Device>()) continue;
      TestPlan raised = built;
      Device& device = std::get<Device>(raised.plan.items[fuse].data);
      device.rating = *device.rating * 2.0;
      const Judged after = judge(raised);
      for (const ConductorId id : built.plan.conductors.ids()) {
        SCOPED_TRACE("seed " + std::to_string(seed) + " " + built.plan.items[fuse].id + " " +
                     built.plan.conductors[id].id);
        const ConductorProtection& was = before.protection.conductors[id];
        const ConductorProtection& is = after.protection.conductors[id];
        ASSERT_EQ(was.unbounded, is.unbounded);
        if (was.unbounded) continue;
        ASSERT_GE(*is.let_through, *was.let_through);
        risen += *is.let_through > *was.let_through ? 1U : 0U;
      }
    }
  }
  EXPECT_GT(risen, 100u);
}

std::set<std::string> text_of(const Plan& plan, const ConductorProtection& of) {
  std::set<std::string> text;
  for (const std::string& name : names(plan, of.protected_by)) text.insert("by " + name);
  for (const std::string& name : names(plan, of.beyond)) text.insert("beyond " + name);
  for (const ConductorId id : of.further) text.insert("further " + plan.conductors[id].id);
  if (of.fed_at) text.insert("fed at " + terminal_text(plan, *of.fed_at));
  text.insert("side " + std::to_string(static_cast<int>(of.side)));
  text.insert("exposure " + std::to_string(static_cast<int>(of.exposure)));
  text.insert("flow " + (of.let_through ? std::to_string(of.let_through->in(amperes)) : "none"));
  text.insert("length " + (of.exposed_length ? std::to_string(of.exposed_length->in(metres)) : "none"));
  return text;
}

TEST(ProtectionOfAnyCircuit, DoesNotHangOnTheOrderInThePlan) {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    const TestPlan built = random_plan(seed);
    const TestPlan other = renumbered(built, seed);
    const Judged first = judge(built), second = judge(other);
    std::map<std::string, std::set<std::string>> texts;
    for (const ConductorId id : built.plan.conductors.ids())
      texts[built.plan.conductors[id].id] = text_of(built.plan, first.protection.conductors[id]);
    for (const ConductorId id : other.plan.conductors.ids()) {
      SCOPED_TRACE("seed " + std::to_string(seed) + " " + other.plan.conductors[id].id);
      ASSERT_EQ(text_of(other.plan, second.protection.conductors[id]), texts[other.plan.conductors[id].id]);
    }
  }
}

}  // namespace
}  // namespace loomleaf
