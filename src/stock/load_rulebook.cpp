#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "loomleaf/language/words.h"
#include "loomleaf/stock/rulebook.h"
#include "plain_text.h"
#include "template_file.h"

namespace loomleaf {

namespace {

constexpr Bounds kAmperes{0.01, 10000}, kInsulation{40, 400}, kAmbient{-40, 300}, kFactor{0.01, 1}, kCount{1, 10000};
constexpr Bounds kAllowance{1, 1.5}, kPercent{0.1, 100}, kContinuous{1, 2}, kHours{0.01, 24}, kMillimetres{1, 100000},
    kVolts{1, 1000};

// What a duplicate would leave open: which of the two holds.
void complain_of_second(TemplateFile& file, pugi::xml_node row, bool is_second, const std::string& what) {
  if (is_second) file.complain(row, fmt::format("a second {}: one is enough, and either could be meant", what));
}

void read_ampacity(TemplateFile& file, Rulebook& book) {
  std::optional<double> last_insulation;
  bool first = true;
  for (const pugi::xml_node table : file.named(file.root(), "ampacity")) {
    file.only_attributes(table, {"insulation_C", "source", "known"});
    std::optional<Temperature> insulation;
    if (file.has(table, "insulation_C")) {
      const double rated = file.number(table, "insulation_C", kInsulation).value_or(kInsulation.least);
      if (last_insulation && rated <= *last_insulation) {
        file.complain(table, "the tables should rise in insulation_C, each once");
      }
      last_insulation = rated;
      insulation = celsius(rated);
    } else if (!first) {
      file.complain(table, "the table without insulation_C should stand first, and once");
    }
    first = false;
    const std::size_t begin = book.ampacity.size();
    for (const pugi::xml_node row : file.children(table, {"conductor"})) {
      file.only_attributes(row, {"size", "amperes", "source", "known"});
      const std::optional<WireSize> size = file.size(row, "size");
      const std::optional<double> may_carry = file.number(row, "amperes", kAmperes);
      if (!size || !may_carry) continue;
      const AmpacityRow read{*size, insulation, amperes(*may_carry), file.provenance(row)};
      if (book.ampacity.size() > begin) {
        const AmpacityRow& last = book.ampacity.back();
        if (nominal_area(last.size) >= nominal_area(read.size)) {
          file.complain(row, fmt::format("the sizes should go from thin to thick: {} stands behind {}",
                                         to_text(read.size), to_text(last.size)));
        } else if (read.may_carry < last.may_carry) {
          file.complain(row,
                        fmt::format("{} carries less than the thinner {}", to_text(read.size), to_text(last.size)));
        }
      }
      book.ampacity.push_back(read);
    }
  }
  if (book.ampacity.empty()) file.complain(file.root(), "there is no <ampacity> table in this file");
}

// The coolest column of the ampacities needs factors of its own or a cooler table's: a warmer table's would let it
// carry too much.
void check_ambient_of_coolest(TemplateFile& file, const Rulebook& book) {
  for (const pugi::xml_node table : file.named(file.root(), "ampacity")) {
    if (!file.has(table, "insulation_C") || !table.child("conductor")) continue;
    const Temperature coolest = celsius(table.attribute("insulation_C").as_double());
    if (std::none_of(book.ambient.begin(), book.ambient.end(),
                     [&](const AmbientRow& row) { return row.insulation <= coolest; })) {
      file.complain(table, fmt::format("there are no factors for warm places for this insulation: write an <ambient "
                                       "insulation_C=\"{}\"> with <up_to> rows",
                                       table.attribute("insulation_C").value()));
    }
    return;
  }
}

void read_ambient(TemplateFile& file, Rulebook& book) {
  double last_insulation = 0;
  for (const pugi::xml_node table : file.named(file.root(), "ambient")) {
    file.only_attributes(table, {"insulation_C", "source", "known"});
    const double insulation = file.number(table, "insulation_C", kInsulation).value_or(0);
    if (insulation <= last_insulation) file.complain(table, "the tables should rise in insulation_C, each once");
    last_insulation = insulation;
    double last = book.ambient_reference.in(celsius), last_factor = 1;
    for (const pugi::xml_node row : file.children(table, {"up_to"})) {
      file.only_attributes(row, {"ambient_C", "factor", "source", "known"});
      const double up_to = file.number(row, "ambient_C", kAmbient).value_or(kAmbient.most);
      const double factor = file.number(row, "factor", kFactor).value_or(kFactor.least);
      if (up_to <= last) file.complain(row, "the rows should rise in ambient_C, from above the reference ambient");
      if (factor > last_factor) file.complain(row, "a warmer place has a greater factor than a cooler one");
      last = up_to;
      last_factor = factor;
      book.ambient.push_back({celsius(insulation), celsius(up_to), factor, file.provenance(row)});
    }
  }
  check_ambient_of_coolest(file, book);
}

void read_grouping(TemplateFile& file, pugi::xml_node table, Rulebook& book) {
  file.only_attributes(table, {"counts", "source", "known"});
  const std::string_view counts = table.attribute("counts").value();
  if (counts != "conductors" && counts != "circuits") {
    file.complain(table, "counts should be \"conductors\" or \"circuits\"");
  }
  book.grouping_counts_circuits = counts == "circuits";
  for (const pugi::xml_node row : file.children(table, {"from"})) {
    file.only_attributes(row, {"count", "factor", "source", "known"});
    const GroupingRow read{file.whole(row, "count", kCount).value_or(1),
                           file.number(row, "factor", kFactor).value_or(kFactor.least), file.provenance(row)};
    if (!book.grouping.empty() && read.from_count <= book.grouping.back().from_count) {
      file.complain(row, "the rows should rise in count");
    }
    if (!book.grouping.empty() && read.factor > book.grouping.back().factor) {
      file.complain(row, "more conductors together have a greater factor than fewer");
    }
    book.grouping.push_back(read);
  }
}

auto conditions(const PositionRow& row) {
  return std::tuple(row.only_sheathed, row.only_from_battery, row.only_from_charger, row.only_starter);
}

void read_positions(TemplateFile& file, pugi::xml_node table, Rulebook& book) {
  file.only_attributes(table, {"source", "known"});
  for (const pugi::xml_node row : file.children(table, {"position"})) {
    file.only_attributes(row, {"longest_mm", "only_sheathed", "only_from_battery", "only_from_charger", "only_starter",
                               "source", "known"});
    PositionRow read;
    if (std::string_view(row.attribute("longest_mm").value()) != "any") {
      read.longest = millimetres(file.number(row, "longest_mm", kMillimetres).value_or(0));
    }
    read.only_sheathed = file.yes(row, "only_sheathed");
    read.only_from_battery = file.yes(row, "only_from_battery");
    read.only_from_charger = file.yes(row, "only_from_charger");
    read.only_starter = file.yes(row, "only_starter");
    if (read.only_from_battery && read.only_from_charger)
      file.complain(row, "no stretch is fed at a battery and at a charger at once: write one of the two, or two rows");
    read.from = file.provenance(row);
    if (!read.longest && !read.only_sheathed && !read.only_starter) {
      file.complain(row,
                    "longest_mm=\"any\" for every conductor would let all run without a device: give a length, or "
                    "only_sheathed=\"yes\" or only_starter=\"yes\"");
    }
    complain_of_second(file, row,
                       std::any_of(book.positions.begin(), book.positions.end(),
                                   [&](const PositionRow& other) { return conditions(other) == conditions(read); }),
                       "<position> for the same conditions");
    book.positions.push_back(read);
  }
}

void read_colours(TemplateFile& file, pugi::xml_node table, Rulebook& book) {
  file.only_attributes(table, {"source", "known"});
  for (const pugi::xml_node row : file.children(table, {"colour"})) {
    file.only_attributes(row, {"use", "colours", "source", "known"});
    ColourRow read;
    read.use = file.text(row, "use").value_or("");
    if (read.use != "positive" && read.use != "negative" && read.use != "bond") {
      file.complain(row, "use should be \"positive\", \"negative\" or \"bond\"");
    }
    complain_of_second(file, row, std::ranges::find(book.colours, read.use, &ColourRow::use) != book.colours.end(),
                       fmt::format("<colour> for \"{}\"", clipped(read.use)));
    const std::string words = file.text(row, "colours").value_or("");
    for (std::string_view rest = words; !rest.empty();) {
      std::string_view word = rest.substr(0, rest.find(','));
      rest.remove_prefix(std::min(word.size() + 1, rest.size()));
      word.remove_prefix(std::min(word.find_first_not_of(' '), word.size()));
      if (const std::optional<WireColour> colour = read_colour(word)) {
        complain_of_second(file, row, std::ranges::find(read.colours, *colour) != read.colours.end(),
                           fmt::format("\"{}\" in this list", to_text(*colour)));
        read.colours.push_back(*colour);
      } else {
        file.complain(row,
                      fmt::format("\"{}\" is no colour: write \"red\", or \"red/white\" for base and tracer", word));
      }
    }
    read.from = file.provenance(row);
    book.colours.push_back(std::move(read));
  }
}

void read_conduit_fill(TemplateFile& file, pugi::xml_node table, Rulebook& book) {
  file.only_attributes(table, {"source", "known"});
  book.conduit_fill_from = file.provenance(table);
  for (const pugi::xml_node row : file.children(table, {"from"})) {
    file.only_attributes(row, {"cables", "percent"});
    const int from = file.whole(row, "cables", kCount).value_or(1);
    if (!book.conduit_fill.empty() && from <= book.conduit_fill.back().first) {
      file.complain(row, "the rows should rise in cables");
    }
    book.conduit_fill.emplace_back(from, file.number(row, "percent", kPercent).value_or(0) / 100);
  }
}

void read_least_sizes(TemplateFile& file, Rulebook& book) {
  for (const pugi::xml_node row : file.named(file.root(), "least_size")) {
    file.only_attributes(row, {"size", "in_sheath", "source", "known"});
    const bool in_sheath = file.yes(row, "in_sheath");
    complain_of_second(file, row,
                       std::ranges::find(book.least_sizes, in_sheath, &MinSizeRow::in_sheath) != book.least_sizes.end(),
                       in_sheath ? "<least_size> for cores in a sheath" : "<least_size> for single conductors");
    book.least_sizes.push_back({in_sheath, file.size(row, "size").value_or(WireSize()), file.provenance(row)});
  }
  if (std::none_of(book.least_sizes.begin(), book.least_sizes.end(),
                   [](const MinSizeRow& r) { return !r.in_sheath; })) {
    file.complain(file.root(), "<least_size> for single conductors is missing");
  }
}

void read_least_bond(TemplateFile& file, Rulebook& book) {
  if (!file.root().child("least_bond")) return;
  const auto row = file.single(file.root(), "least_bond");
  if (!row) return;
  file.only_attributes(*row, {"size", "as_lead", "source", "known"});
  book.least_bond = {file.size(*row, "size").value_or(WireSize()), file.yes(*row, "as_lead"), file.provenance(*row)};
}

void read_parallel(TemplateFile& file, Rulebook& book) {
  if (!file.root().child("parallel")) return;
  const auto row = file.single(file.root(), "parallel");
  if (!row) return;
  file.only_attributes(*row, {"from_size", "source", "known"});
  book.parallel_from = Figure<WireSize>{file.size(*row, "from_size").value_or(WireSize()), file.provenance(*row)};
}

void read_device_allowances(TemplateFile& file, Rulebook& book) {
  for (const pugi::xml_node row : file.named(file.root(), "device_allowance")) {
    file.only_attributes(row, {"share", "below_V", "source", "known"});
    AllowanceRow read{file.number(row, "share", kAllowance).value_or(1), std::nullopt, file.provenance(row)};
    if (file.has(row, "below_V")) read.below = volts(file.number(row, "below_V", kVolts).value_or(kVolts.most));
    if (!book.device_allowances.empty()) {
      const AllowanceRow& last = book.device_allowances.back();
      if (!last.below)
        file.complain(row, "the <device_allowance> without below_V should stand last, and once");
      else if (read.below && *read.below <= *last.below)
        file.complain(row, "the rows should rise in below_V");
      if (read.share > last.share) file.complain(row, "a higher voltage has a greater share than a lower one");
    }
    book.device_allowances.push_back(read);
  }
  if (book.device_allowances.empty() || book.device_allowances.back().below)
    file.complain(file.root(),
                  "<device_allowance> for every voltage is missing: one without below_V, behind any with it");
}

// The figures that a book has one of.
Figure<double> one_number(TemplateFile& file, const char* element, const char* attribute, Bounds bounds) {
  const std::optional<pugi::xml_node> node = file.single(file.root(), element);
  if (!node) return {};
  file.only_attributes(*node, {attribute, "source", "known"});
  return {file.number(*node, attribute, bounds).value_or(0), file.provenance(*node)};
}

Figure<bool> one_answer(TemplateFile& file, const char* element, const char* attribute) {
  const std::optional<pugi::xml_node> node = file.single(file.root(), element);
  if (!node) return {};
  file.only_attributes(*node, {attribute, "source", "known"});
  if (!file.has(*node, attribute))
    file.complain(*node, fmt::format("write {}=\"yes\" or {}=\"no\"", attribute, attribute));
  return {file.yes(*node, attribute), file.provenance(*node)};
}

void read_sae_sizes(TemplateFile& file, Rulebook& book) {
  book.sae_counts_as_awg = {false, {"", Known::practice}};
  if (!file.root().child("sae_sizes")) return;
  const std::optional<pugi::xml_node> node = file.single(file.root(), "sae_sizes");
  if (!node) return;
  file.only_attributes(*node, {"count_as", "source", "known"});
  const std::string_view as = node->attribute("count_as").value();
  if (as != "AWG" && as != "area") file.complain(*node, "count_as should be \"AWG\" or \"area\"");
  book.sae_counts_as_awg = {as == "AWG", file.provenance(*node)};
}

void read_book(TemplateFile& file, Rulebook& book) {
  const pugi::xml_node root = file.root();
  file.only_attributes(root, {"format", "title", "reference_ambient_C"});
  file.children(root, {"ampacity", "ambient", "grouping", "device_allowance", "sae_sizes", "positions", "voltage_drop",
                       "least_size", "least_bond", "parallel", "colours", "return_alone", "chassis", "continuous",
                       "continuous_from", "conduit_fill", "longest_tail"});
  book.title = file.text(root, "title").value_or("");
  book.ambient_reference = celsius(file.number(root, "reference_ambient_C", kAmbient).value_or(0));
  read_ampacity(file, book);
  read_ambient(file, book);
  if (const auto table = file.single(root, "grouping")) read_grouping(file, *table, book);
  if (const auto table = file.single(root, "positions")) read_positions(file, *table, book);
  if (const auto table = file.single(root, "colours")) read_colours(file, *table, book);
  if (const auto table = file.single(root, "conduit_fill")) read_conduit_fill(file, *table, book);
  read_least_sizes(file, book);
  read_least_bond(file, book);
  read_parallel(file, book);
  read_sae_sizes(file, book);
  read_device_allowances(file, book);
  book.drop_limit = one_number(file, "voltage_drop", "percent", kPercent);
  book.drop_limit.value /= 100;
  book.continuous_factor = one_number(file, "continuous", "factor", kContinuous);
  const Figure<double> from = one_number(file, "continuous_from", "hours", kHours);
  book.continuous_from = {hours(from.value), from.from};
  book.return_alone_may_be_switched = one_answer(file, "return_alone", "may_be_switched");
  book.chassis_may_carry = one_answer(file, "chassis", "may_carry");
  if (root.child("longest_tail")) {
    const Figure<double> tail = one_number(file, "longest_tail", "mm", kMillimetres);
    book.longest_tail = Figure<Length>{millimetres(tail.value), tail.from};
  }
}

}  // namespace

Loaded<Rulebook> load_rulebook(const TemplateFolders& folders, std::string_view name) {
  Loaded<Rulebook> loaded;
  loaded.value.name = lower_case(name);
  const std::filesystem::path path = folders.find("rulebooks", loaded.value.name + ".xml");
  if (path.empty()) {
    loaded.errors.push_back(
        {fmt::format("rulebooks/{}.xml", clipped(name)), 0, "this file is in none of the template folders"});
    return loaded;
  }
  TemplateFile file(path, "rulebook");
  if (file.root()) read_book(file, loaded.value);
  loaded.errors = file.take_errors();
  return loaded;
}

}  // namespace loomleaf
