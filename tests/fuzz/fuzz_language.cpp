// Any bytes at all are read to statements and complaints, and each complaint can be shown.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "loomleaf/language/dump.h"
#include "loomleaf/language/statement.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const loomleaf::SourceText source("plan.loom", std::string(data, data + size));
  const loomleaf::Document document = loomleaf::read_document(source);
  std::string shown = to_text(document);
  for (const loomleaf::Complaint& complaint : document.complaints) {
    if (complaint.message.empty() || complaint.span.end < complaint.span.begin) std::abort();
    shown += to_text(complaint, source);
  }
  if (document.complaints.size() > 1'100) std::abort();
  return 0;
}
