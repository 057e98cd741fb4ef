#include "load_insulations.h"

#include <fmt/format.h>

#include <algorithm>

namespace loomleaf {

namespace {

constexpr Bounds kMillimetres{0.1, 1000};

// The <single> or the <two_core> rows of a kind.
std::vector<InsulationKind::Row> read_rows(TemplateFile& file, pugi::xml_node kind, const char* name) {
  std::vector<InsulationKind::Row> rows;
  for (const pugi::xml_node node : file.named(kind, name)) {
    file.only_attributes(node, {"size", "mm", "source", "known"});
    const auto size = file.size(node, "size");
    const auto outside = file.number(node, "mm", kMillimetres);
    if (!size || !outside) continue;
    const InsulationKind::Row row{*size, millimetres(*outside), file.provenance(node)};
    if (InsulationKind::find(rows, row.size))
      file.complain(node, fmt::format("a second <{}> of {}: one is enough", name, to_text(row.size)));
    else if (!rows.empty() && row.outside < rows.back().outside)
      file.complain(
          node, fmt::format("{} is thinner outside than {} before it", to_text(row.size), to_text(rows.back().size)));
    rows.push_back(row);
  }
  return rows;
}

}  // namespace

void read_insulations(TemplateFile& file, Stock& stock) {
  for (const pugi::xml_node node : file.children(file.root(), {"insulation"})) {
    file.only_attributes(node, {"name", "what", "source", "known"});
    file.children(node, {"single", "two_core"});
    InsulationKind kind;
    kind.name = file.text(node, "name").value_or("");
    kind.what = file.text(node, "what").value_or("");
    // What begins with a digit would be read as a figure in a plan.
    const bool is_word = !kind.name.empty() && kind.name[0] >= 'a' && kind.name[0] <= 'z' &&
                         kind.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
    if (!is_word)
      file.complain(node,
                    "the name of an insulation begins with a small letter, and is made of small letters, digits "
                    "and hyphens");
    if (stock.find_insulation(kind.name))
      file.complain(node, fmt::format("a second insulation called \"{}\"", kind.name));
    kind.singles = read_rows(file, node, "single");
    kind.two_core = read_rows(file, node, "two_core");
    if (kind.singles.empty() && kind.two_core.empty())
      file.complain(node, "this insulation has no <single> and no <two_core> row");
    stock.insulations.push_back(std::move(kind));
  }
}

}  // namespace loomleaf
