// Plans examined from their text with the project's own templates.
#pragma once

#include <gtest/gtest.h>

#include <string>

#include "loomleaf/command/examine.h"

namespace loomleaf::test {

// Fails the running test where the plan is not understood.
inline Examination examined(const std::string& text) {
  const SourceText source("plan.loom", text);
  Examination examination = examine(source, {{LOOMLEAF_ROOT "/templates"}});
  for (const TemplateError& error : examination.template_errors) ADD_FAILURE() << error.file << ": " << error.message;
  for (const Complaint& complaint : examination.complaints) ADD_FAILURE() << to_text(complaint, source);
  return examination;
}

}  // namespace loomleaf::test
