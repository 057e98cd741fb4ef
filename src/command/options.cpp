#include "loomleaf/command/options.h"

#include <CLI/CLI.hpp>
#include <map>

namespace loomleaf {

namespace {

constexpr const char* about =
    "loomleaf reads a plan of extra-low-voltage DC wiring, says what would burn, blow or not work,\n"
    "and prints the diagram and the labels.";
constexpr const char* closing =
    "Exit status: 0 nothing found at or above --stop-at, 1 findings, 2 the plan cannot be understood or the command "
    "is\n"
    "misused, 3 a file cannot be read or written.\n"
    "Local codes and a qualified person have the last word. Mains and anything over 60 V DC are not for this program.";

const std::map<std::string, Severity> severities = {{"danger", Severity::danger},
                                                    {"warning", Severity::warning},
                                                    {"caution", Severity::caution},
                                                    {"notice", Severity::notice}};
const std::map<std::string, Options::Colour> colours = {
    {"auto", Options::Colour::automatic}, {"always", Options::Colour::always}, {"never", Options::Colour::never}};

// One of a few words, named in the help and in the complaint.
template <class Value>
CLI::Option* add_choice(CLI::App* app, const std::string& name, std::string* word,
                        const std::map<std::string, Value>& words, const std::string& help) {
  std::vector<std::string> names;
  for (const auto& [key, value] : words) names.push_back(key);
  return app->add_option(name, *word, help)->check(CLI::IsMember(names, CLI::ignore_case));
}

}  // namespace

ParsedOptions parse_options(const std::vector<std::string>& arguments) {
  Options options;
  CheckOptions check;
  PrintOptions print;
  StartOptions start;
  ExplainOptions explain;
  std::string colour = "auto", check_stop = "warning", print_stop;

  CLI::App app(about, "loomleaf");
  app.footer(closing);
  app.set_version_flag("--version", "loomleaf 0.1.0");
  app.require_subcommand(1);
  app.fallthrough();
  app.add_option("--templates", options.templates, "folder of your own templates, looked at first")->type_name("DIR");
  add_choice(&app, "--colour,--color", &colour, colours, "colour on the terminal: auto, always, never")
      ->type_name("WHEN");

  CLI::App* check_app = app.add_subcommand("check", "say what is wrong with a plan");
  check_app->add_option("PLAN", check.plan, "the plan; - is standard input")->required();
  check_app->add_flag("--json", check.json, "print all figures and findings as JSON");
  check_app->add_option("--rules", check.rules, "rulebook, in place of the plan's")->type_name("NAME");
  add_choice(check_app, "--stop-at", &check_stop, severities,
             "severity from which the exit status is 1 (default: warning)")
      ->type_name("SEVERITY");

  CLI::App* print_app = app.add_subcommand("print", "print the papers of a plan");
  print_app->add_option("PLAN", print.plan, "the plan; - is standard input")->required();
  print_app->add_option("--out", print.out, "folder for the papers (default: PLAN-papers beside the plan)")
      ->type_name("DIR");
  print_app->add_option("--only", print.only, "these sheets alone, such as diagram,labels")
      ->delimiter(',')
      ->allow_extra_args(false)
      ->type_name("SHEETS");
  print_app->add_option("--as", print.as, "pdf (default), svg, png, csv, json")
      ->check(CLI::IsMember({"pdf", "svg", "png", "csv", "json"}, CLI::ignore_case))
      ->type_name("FORM");
  print_app->add_option("--paper", print.paper, "a4 (default), letter; for the diagram also a3, tabloid")
      ->type_name("PAPER");
  print_app->add_option("--dpi", print.dots_per_inch, "dots per inch of a png (default: 150)")
      ->check(CLI::Range(20.0, 1200.0))
      ->type_name("DOTS");
  print_app->add_option("--label-stock", print.label_stock, "label stock (default: plain)")->type_name("NAME");
  print_app->add_option("--label-size", print.label_size, "one size for all labels (default: by each wire's diameter)")
      ->type_name("SIZE");
  print_app->add_option("--over-terminal", print.over_terminal_mm, "sleeves go on over crimped terminals so wide")
      ->check(CLI::Range(0.0, 100.0))
      ->type_name("MM");
  print_app->add_option("--copies", print.copies, "of each label")->check(CLI::Range(1, 20))->type_name("COUNT");
  print_app->add_option("--used", print.used, "labels gone from the first sheet: 6, or of one size: 4.8=6")
      ->delimiter(',')
      ->allow_extra_args(false)
      ->type_name("COUNT");
  print_app->add_option("--printer", print.printer, "measures of the printer (default: printer.txt beside the plan)")
      ->type_name("FILE");
  print_app->add_option("--rules", print.rules, "rulebook, in place of the plan's")->type_name("NAME");
  add_choice(print_app, "--stop-at", &print_stop, severities, "leave with 1 where something this severe is found")
      ->type_name("SEVERITY");

  CLI::App* start_app = app.add_subcommand("start", "write a commented plan to begin from");
  start_app->add_option("FILE", start.file, "the new file")->required();

  CLI::App* explain_app =
      app.add_subcommand("explain", "what a finding means and how it is worked out, or what a rulebook asks");
  explain_app->add_option("NAME", explain.name, "a finding, a rulebook such as rv, or `words`; alone: the list");
  explain_app->add_option("PLAN", explain.plan, "with the figures of this plan; - is standard input");
  explain_app->add_option("ID", explain.id, "and of this item, wire or leg in it; else of all that is found");

  ParsedOptions parsed;
  try {
    std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
    app.parse(reversed);
  } catch (const CLI::ParseError& trouble) {
    std::ostringstream out, err;
    const int code = app.exit(trouble, out, err);
    parsed.text = code == 0 ? out.str() : err.str();
    parsed.status = code == 0 ? ExitStatus::clean : ExitStatus::not_understood;
    return parsed;
  }

  check.stop_at = severities.at(CLI::detail::to_lower(check_stop));
  if (!print_stop.empty()) print.stop_at = severities.at(CLI::detail::to_lower(print_stop));
  options.colour = colours.at(CLI::detail::to_lower(colour));
  print.as = CLI::detail::to_lower(print.as);
  print.paper = CLI::detail::to_lower(print.paper);
  if (check_app->parsed()) options.what = check;
  if (print_app->parsed()) options.what = print;
  if (start_app->parsed()) options.what = start;
  if (explain_app->parsed()) options.what = explain;
  parsed.options = options;
  return parsed;
}

}  // namespace loomleaf
