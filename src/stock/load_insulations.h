// Reads stock/insulations.xml.
#pragma once

#include "loomleaf/stock/stock.h"
#include "template_file.h"

namespace loomleaf {

void read_insulations(TemplateFile& file, Stock& stock);

}  // namespace loomleaf
