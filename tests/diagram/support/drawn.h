// Plans drawn from their text with the project's own templates, and what must hold of every drawing.
#pragma once

#include <string>
#include <vector>

#include "loomleaf/command/examine.h"
#include "loomleaf/sheets/diagram_sheets.h"

namespace loomleaf::test {

struct Drawn {
  Examination seen;
  DiagramSheets sheets;
};

// Fails the running test where the plan is not understood.
Drawn draw(const std::string& text, const std::string& paper = "a4", Orientation orientation = Orientation::landscape);

const TextMeasure& type();

// The faults of a drawing in words: what overlaps what, what is missing, what is too small. None where it is sound.
std::vector<std::string> faults(const Drawn& drawn);

// Every plan in examples/, by path.
std::vector<std::string> example_files();
std::string read_text(const std::string& path);

}  // namespace loomleaf::test
