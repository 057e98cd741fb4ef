// From the pages or the table of a paper to its files.
#pragma once

#include <string>
#include <string_view>

#include "loomleaf/command/papers.h"
#include "loomleaf/sheets/display_list.h"
#include "loomleaf/takeoff/table.h"

namespace loomleaf {

// Without pages: title, author, subject and date of the plan.
Drawing drawing_of(const PaperJob& job, std::string_view subject);

// Pages as one PDF, or one file a page as SVG or PNG.
void add_pages(Paper& paper, const PaperJob& job, const std::string& name, const Drawing& drawing);

bool wants_table(const PaperJob& job);
// As CSV or JSON, under the table's name.
void add_table(Paper& paper, const PaperJob& job, const Table& table);

// The makers of papers that have a file of their own.
Paper make_labels(const PaperJob& job);
Paper make_calibration(const PaperJob& job);

}  // namespace loomleaf
