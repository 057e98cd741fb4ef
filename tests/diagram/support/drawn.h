// Plans drawn from their text with the project's own templates, and what must hold of every drawing.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "loomleaf/command/examine.h"
#include "loomleaf/sheets/diagram_sheets.h"

namespace loomleaf::test {

// Fails the running test where the plan is not understood.
Examination examine_text(const std::string& text);

struct Drawn {
  std::shared_ptr<const Examination> examination;  // may be shared by drawings on several papers
  DiagramSheets sheets;
  SheetFormat format;
  const Examination& seen() const { return *examination; }
};
Drawn draw(std::shared_ptr<const Examination> seen, const std::string& paper, Orientation orientation);
Drawn draw(const std::string& text, const std::string& paper = "a4", Orientation orientation = Orientation::landscape);

// The drawing as a PDF.
std::string pdf_of(const Drawn& drawn);

const TextMeasure& type();

// The faults of a drawing in words: what overlaps what, what is missing, what is too small. None where it is sound.
std::vector<std::string> faults(const Drawn& drawn);

// Every plan in examples/, by path.
std::vector<std::string> example_files();
std::string read_text(const std::string& path);

}  // namespace loomleaf::test
