#include "acceptances.h"

namespace loomleaf {

namespace {

std::string key_of(std::string_view rule, std::string_view subject) {
  return std::string(rule) + ' ' + std::string(subject);
}

}  // namespace

Acceptances::Acceptances(const Plan& plan) {
  for (std::size_t at = 0; at < plan.acceptances.size(); ++at) {
    const Acceptance& acceptance = plan.acceptances[at];
    for (const std::string& subject : acceptance.subjects)
      by_rule_and_subject_[key_of(acceptance.rule, subject)].push_back(at);
  }
}

std::vector<std::size_t> Acceptances::covering(std::string_view rule, const std::string& subject) const {
  std::vector<std::size_t> covering;
  const auto add = [&](std::string_view name) {
    const auto found = by_rule_and_subject_.find(key_of(rule, name));
    if (found != by_rule_and_subject_.end())
      covering.insert(covering.end(), found->second.begin(), found->second.end());
  };
  add(subject);
  const std::size_t dot = subject.find('.');
  if (dot != std::string::npos) add(std::string_view(subject).substr(0, dot));
  return covering;
}

}  // namespace loomleaf
