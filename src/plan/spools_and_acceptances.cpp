#include "loomleaf/language/words.h"
#include "properties.h"
#include "steps.h"

namespace loomleaf {

void read_spools_and_acceptances(Draft& draft) {
  for (const Statement& s : draft.document.statements) {
    if (s.keyword == Keyword::spool) {
      draft.plan.spools.push_back({given<WireSize>(s, PropertyKind::size), given<WireColour>(s, PropertyKind::colour),
                                   given<Length>(s, PropertyKind::length).value_or(Length{}), s.span});
    } else if (s.keyword == Keyword::accept && !s.ids.empty()) {
      Acceptance acceptance{lower_case(s.ids.front().id), {}, s.description.value_or(""), s.span};
      for (const Name& subject : s.subjects)
        if (find_subject(draft, subject)) acceptance.subjects.push_back(subject.id);
      draft.plan.acceptances.push_back(std::move(acceptance));
    }
  }
}

}  // namespace loomleaf
