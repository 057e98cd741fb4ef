// What the user asked for, as parsed from the command line.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "loomleaf/command/run.h"
#include "loomleaf/rules/finding.h"

namespace loomleaf {

struct CheckOptions {
  std::string plan;
  bool json = false;
  std::optional<std::string> rules;
  Severity stop_at = Severity::warning;
};

struct PrintOptions {
  std::string plan;
  std::optional<std::string> out;              // folder; default: PLAN-papers beside the plan
  std::vector<std::string> only;               // names of sheets; empty: all
  std::string as = "pdf";                      // pdf, svg, png, csv, json
  std::string paper = "a4";
  std::string label_stock = "plain";
  std::string label_size;                      // empty: chosen for each wire by its diameter
  double over_terminal_mm = 0.0;               // sleeves go on over a crimped terminal so wide; 0: before it is crimped
  int copies = 1;                              // of each label
  std::vector<std::string> used;               // labels gone from the first sheet: "6", or of a size: "4.8=6"
  std::optional<std::string> printer;          // the file of its measures; default: printer.txt beside the plan
  double dots_per_inch = 150.0;                // of a png
  std::optional<std::string> rules;
  std::optional<Severity> stop_at;
};

struct StartOptions { std::string file; };
struct ExplainOptions {
  std::string name;                            // a finding, a rulebook or `words`; empty: the list
  std::optional<std::string> plan, id;         // whose figures to take
};

struct Options {
  std::optional<std::string> templates;        // --templates DIR
  enum class Colour { automatic, always, never } colour = Colour::automatic;
  std::variant<CheckOptions, PrintOptions, StartOptions, ExplainOptions> what;
};

// Either options, or what to print and the status to leave with (help, version, misuse).
struct ParsedOptions {
  std::optional<Options> options;
  std::string text;
  ExitStatus status = ExitStatus::clean;
};
ParsedOptions parse_options(const std::vector<std::string>& arguments);

}  // namespace loomleaf
