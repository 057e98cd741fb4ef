// The labels: sheets of a stock, or a table for label machines; and the sheet to measure the printer by.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <charconv>
#include <filesystem>

#include "loomleaf/sheets/label_sheets.h"
#include "loomleaf/sheets/printer.h"
#include "loomleaf/units/format.h"
#include "paper_files.h"

namespace loomleaf {

namespace {

constexpr std::size_t most_remarks = 40;

// One row for each label and copy; `sizes` are those of the labels, in their order. See the README for the columns.
Table wire_table(const std::vector<Label>& labels, const Plan& plan, const std::vector<std::string>& sizes,
                 int copies) {
  Table table{"labels",
              {"id", "end", "kind", "lands_at", "far_end", "fuse", "size", "place", "part_of", "circuit", "diameter_mm",
               "label_size"},
              {}};
  for (int copy = 0; copy < copies; ++copy)
    for (std::size_t i = 0; i < labels.size(); ++i) {
      const Label& label = labels[i];
      table.rows.push_back({label.id, label.at_from_end ? "from" : "to", label.is_sheath ? "sheath" : "conductor",
                            label.lands_at, label.far_end, label.fuse, label.size, label.place, plan.runs[label.run].id,
                            label.circuit, label.outside ? to_text(label.outside->widest.in(millimetres), 2) : "",
                            sizes[i]});
    }
  return table;
}

Table legend_table(const std::vector<Legend>& legends) {
  Table table{"legends", {"id", "name", "rating", "place"}, {}};
  for (const Legend& legend : legends) table.rows.push_back({legend.id, legend.name, legend.rating, legend.place});
  return table;
}

// "6" or "4.8=6".
std::optional<UsedLabels> read_used(const std::string& text) {
  UsedLabels used;
  const std::size_t equals = text.find('=');
  if (equals != std::string::npos) used.size = text.substr(0, equals);
  const std::string count = equals == std::string::npos ? text : text.substr(equals + 1);
  const auto [end, error] = std::from_chars(count.data(), count.data() + count.size(), used.count);
  if (error != std::errc{} || end != count.data() + count.size() || used.count < 0 || used.count > 10000)
    return std::nullopt;
  return used;
}

LabelWishes wishes_of(const PrintOptions& options, std::string& trouble) {
  LabelWishes wishes;
  wishes.size = options.label_size;
  wishes.over_terminal = millimetres(options.over_terminal_mm);
  wishes.copies = options.copies;
  for (const std::string& text : options.used) {
    if (const auto used = read_used(text))
      wishes.used.push_back(*used);
    else
      trouble = fmt::format(
          "`{}`: write how many labels are gone from the first sheet, as --used 6, or of which size, "
          "as --used 4.8=6",
          text);
  }
  return wishes;
}

// The file named on the command line, or `printer.txt` beside the plan where there is one.
std::optional<std::string> printer_file(const PrintOptions& options) {
  if (options.printer) return options.printer;
  const std::filesystem::path folder = options.plan == "-" ? "." : std::filesystem::path(options.plan).parent_path();
  std::error_code error;
  const std::filesystem::path beside = folder / "printer.txt";
  return std::filesystem::exists(beside, error) ? std::optional(beside.string()) : std::nullopt;
}

// Draws the pages for the printer that they are meant for.
void correct_pages(std::vector<Page>& pages, Paper& paper, const PrintOptions& options) {
  const auto path = printer_file(options);
  if (!path) return;
  std::istringstream nothing;
  const ReadFile file = read_file(*path, nothing);
  if (file.trouble) {
    paper.trouble = *file.trouble;
    paper.trouble_status = ExitStatus::file_trouble;
    return;
  }
  const Loaded<PrinterMeasures> printer = read_printer_measures(*path, file.bytes);
  paper.template_errors = printer.errors;
  if (!paper.template_errors.empty()) return;
  for (Page& page : pages) correct_for_printer(page, printer.value);
}

// What goes on a stock: one of the three is filled.
struct Contents {
  std::vector<Label> labels;
  std::vector<Legend> legends;
  std::vector<FuseRow> fuses;
  std::vector<LabelText> texts;
  std::string sheet_name;
};

Loaded<Contents> contents_for(const PaperJob& job, const LabelStock& stock) {
  const Examination& seen = job.examination;
  Loaded<Contents> loaded;
  Contents& contents = loaded.value;
  if (stock.kind == LabelKind::panel) {
    contents.legends = list_legends(seen.plan);
    contents.texts = texts_of(contents.legends);
    contents.sheet_name = "Panel legends";
  } else if (stock.kind == LabelKind::fuses) {
    Loaded<FuseColours> colours = load_fuse_colours(job.folders);
    loaded.errors = std::move(colours.errors);
    contents.fuses = list_fuses(seen.plan, seen.circuit, seen.study, colours.value);
    contents.texts = texts_of(contents.fuses);
    contents.sheet_name = "Fuse-block legends";
  } else {
    contents.labels = list_labels(seen.plan, seen.circuit, seen.study, seen.stock);
    contents.texts = texts_of(contents.labels, stock);
    contents.sheet_name = "Wire labels";
  }
  return loaded;
}

Table table_of(const Contents& contents, const LabelStock& stock, const Plan& plan, const LabelSheets& sheets,
               int copies) {
  if (stock.for_wires()) return wire_table(contents.labels, plan, sheets.size_of, copies);
  if (stock.kind == LabelKind::panel) return legend_table(contents.legends);
  std::vector<Legend> legends;
  for (const FuseRow& fuse : contents.fuses) legends.push_back({fuse.id, fuse.feeds, fuse.rating, ""});
  return legend_table(legends);
}

void add_remarks(Paper& paper, const LabelStock& stock, LabelSheets& sheets) {
  if (!sheets.counts.empty())
    paper.remarks.push_back(fmt::format("labels, {}: {}", stock.title, fmt::join(sheets.counts, "; ")));
  const std::size_t said = std::min(most_remarks, sheets.could_not_fit.size());
  paper.remarks.insert(paper.remarks.end(), sheets.could_not_fit.begin(),
                       sheets.could_not_fit.begin() + static_cast<std::ptrdiff_t>(said));
  if (said < sheets.could_not_fit.size())
    paper.remarks.push_back(fmt::format("and {} more remarks on labels", sheets.could_not_fit.size() - said));
}

}  // namespace

Paper make_labels(const PaperJob& job) {
  Paper paper;
  const Loaded<LabelStock> stock = load_label_stock(job.folders, job.options.label_stock, job.options.paper);
  paper.template_errors = stock.errors;
  const LabelWishes wishes = wishes_of(job.options, paper.trouble);
  if (!paper.template_errors.empty() || !paper.trouble.empty()) return paper;
  const Loaded<Contents> contents = contents_for(job, stock.value);
  paper.template_errors = contents.errors;
  if (!paper.template_errors.empty()) return paper;

  TitleFields title = job.title;
  title.sheet_name = contents.value.sheet_name;
  LabelSheets sheets = draw_label_sheets(contents.value.texts, stock.value, wishes, title, job.type);
  paper.trouble = sheets.trouble;
  if (!paper.trouble.empty()) return paper;
  if (wants_table(job)) {
    add_table(paper, job, table_of(contents.value, stock.value, job.examination.plan, sheets, wishes.copies));
    return paper;
  }
  correct_pages(sheets.pages, paper, job.options);
  if (!paper.template_errors.empty() || !paper.trouble.empty()) return paper;
  Drawing drawing = drawing_of(job, title.sheet_name);
  drawing.pages = std::move(sheets.pages);
  add_pages(paper, job, "labels", drawing);
  add_remarks(paper, stock.value, sheets);
  return paper;
}

Paper make_calibration(const PaperJob& job) {
  Paper paper;
  const Loaded<SheetFormat> format = load_sheet_format(job.folders, job.options.paper, Orientation::portrait);
  paper.template_errors = format.errors;
  if (!paper.template_errors.empty()) return paper;
  Drawing drawing = drawing_of(job, "Printer calibration");
  drawing.pages.push_back(draw_calibration_sheet(format.value));
  add_pages(paper, job, "calibration", drawing);
  return paper;
}

}  // namespace loomleaf
