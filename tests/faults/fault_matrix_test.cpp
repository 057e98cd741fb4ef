// Single mistakes put into sound plans: each is found by the right rule, which names the right subject, and nothing
// else is said that the mistake does not account for.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "faults/support/mistakes.h"
#include "support/examined.h"

namespace loomleaf::test {
namespace {

constexpr int plans = 300;
constexpr int conductors = 80;

class Faults : public ::testing::TestWithParam<Mistake> {};

bool names(const Finding& finding, const std::string& subject) {
  // Of a cable's core the cable is meant too.
  return std::ranges::any_of(finding.subjects,
                             [&](const std::string& id) { return id == subject || id.starts_with(subject + "."); });
}

std::string brief(const Finding& finding) {
  return fmt::format("{} {}: {}", finding.rule, finding.subjects.front(), finding.message);
}

// What a sound plan itself has to say: notices at the most. Each seed's plan is looked at once.
const std::vector<std::string>& said_of_sound_plan(unsigned seed, const std::string& text) {
  static std::map<unsigned, std::vector<std::string>> said;
  const auto [at, is_new] = said.try_emplace(seed);
  if (!is_new) return at->second;
  for (const Finding& finding : examined(text).findings) {
    EXPECT_LT(finding.severity, Severity::caution) << "sound plan of seed " << seed << ": " << brief(finding);
    at->second.push_back(brief(finding));
  }
  return at->second;
}

TEST_P(Faults, AreFoundInSoundPlans) {
  const Mistake& mistake = GetParam();
  int put = 0, found = 0, missed = 0, wrong = 0;
  for (unsigned seed = 1; put < plans && seed <= 10 * plans; ++seed) {
    SoundPlan plan = sound_plan(seed, conductors);
    const std::string sound_text = plan.text();
    Dice dice(seed + 77);
    const std::string subject = mistake.put(plan, dice);
    if (subject.empty()) continue;
    ++put;
    const std::string text = plan.text();
    ASSERT_NE(text, sound_text) << "seed " << seed;
    bool right = false;
    std::vector<std::string> others;
    for (const Finding& finding : examined(text).findings) {
      const bool meant = finding.rule == mistake.rule && names(finding, subject);
      right = right || meant;
      const bool is_gap = finding.rule == "not-checked" && mistake.rule != "not-checked";  // data missing: no alarm
      if (!meant && !is_gap && !std::ranges::count(mistake.along, finding.rule)) others.push_back(brief(finding));
    }
    // Notices that the sound plan has without the mistake do not count.
    for (const std::string& notice : said_of_sound_plan(seed, sound_text)) std::erase(others, notice);
    wrong += static_cast<int>(others.size());
    const std::string said = fmt::format("{}", fmt::join(others, "\n"));
    EXPECT_EQ(said, "") << "seed " << seed << ", mistake at " << subject;
    EXPECT_TRUE(right) << "seed " << seed << ": " << mistake.rule << " does not name " << subject;
    ++(right ? found : missed);
  }
  fmt::print("[ faults ] {:40} {:20} put {:4}  found {:4}  missed {:3}  false {:3}\n", mistake.name, mistake.rule, put,
             found, missed, wrong);
  EXPECT_GE(put, plans);
  EXPECT_EQ(missed, 0);
  EXPECT_EQ(wrong, 0);
}

std::string test_name(const ::testing::TestParamInfo<Mistake>& tested) {
  std::string name;
  for (const char letter : tested.param.name)
    if (std::isalnum(static_cast<unsigned char>(letter)))
      name += letter;
    else if (letter == ' ')
      name += '_';
    else if (letter == '+')
      name += "plus";
    else if (letter == '-')
      name += "minus";
  return name;
}

INSTANTIATE_TEST_SUITE_P(Single, Faults, ::testing::ValuesIn(all_mistakes()), test_name);

}  // namespace
}  // namespace loomleaf::test
