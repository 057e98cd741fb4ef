#include "paper_files.h"

#include <fmt/format.h>

#include "loomleaf/render/render.h"

namespace loomleaf {

Drawing drawing_of(const PaperJob& job, std::string_view subject) {
  Drawing drawing;
  drawing.title = job.title.title;
  drawing.author = job.title.by;
  drawing.subject = subject;
  drawing.date = job.title.date;
  return drawing;
}

void add_pages(Paper& paper, const PaperJob& job, const std::string& name, const Drawing& drawing) {
  if (job.options.as == "pdf") {
    paper.files.push_back({name + ".pdf", to_pdf(drawing, job.type)});
    return;
  }
  for (std::size_t k = 0; k < drawing.pages.size(); ++k) {
    const bool is_svg = job.options.as == "svg";
    paper.files.push_back({fmt::format("{}-{}.{}", name, k + 1, job.options.as),
                           is_svg ? to_svg(drawing.pages[k], drawing, job.type)
                                  : to_png(drawing.pages[k], job.type, job.options.dots_per_inch)});
  }
}

bool wants_table(const PaperJob& job) { return job.options.as == "csv" || job.options.as == "json"; }

void add_table(Paper& paper, const PaperJob& job, const Table& table) {
  paper.files.push_back({table.name + "." + job.options.as, job.options.as == "csv" ? to_csv(table) : to_json(table)});
}

}  // namespace loomleaf
