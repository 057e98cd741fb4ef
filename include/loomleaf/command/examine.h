// From the text of a plan to everything that is known of it: the stages in order.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/language/complaint.h"
#include "loomleaf/plan/plan.h"
#include "loomleaf/route/route.h"
#include "loomleaf/rules/rule.h"
#include "loomleaf/stock/rulebook.h"
#include "loomleaf/stock/stock.h"
#include "loomleaf/study/study.h"

namespace loomleaf {

struct Examination {
  Stock stock;
  Rulebook rulebook;
  Plan plan;
  Routes routes;
  Circuit circuit;
  Study study;
  std::vector<Finding> findings;
  std::vector<Complaint> complaints;           // not empty: the plan is not understood, and study and findings are empty
  std::vector<TemplateError> template_errors;  // not empty: a template is bad, and nothing else was done

  bool understood() const { return complaints.empty() && template_errors.empty(); }
  Checked checked() const { return {plan, routes, circuit, study, stock, rulebook}; }
};

// What a plan may call by name without declaring it.
KnownNames known_names(const Stock& stock, const TemplateFolders& folders);

// `rulebook` overrides the plan's; without either it is `rv`.
Examination examine(const SourceText& source, const TemplateFolders& folders,
                    std::optional<std::string> rulebook = std::nullopt);

}  // namespace loomleaf
