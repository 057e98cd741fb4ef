// The card for the fuse block's door.
#pragma once

#include <vector>

#include "loomleaf/sheets/display_list.h"
#include "loomleaf/sheets/sheet_frame.h"
#include "loomleaf/takeoff/fuse_schedule.h"

namespace loomleaf {

// One row a device, large enough to read in bad light; as many sheets as they take, at least one.
std::vector<Page> draw_fuse_sheets(const std::vector<FuseRow>& rows, const SheetFormat& format,
                                   const TitleFields& fields, const TextMeasure& type);

}  // namespace loomleaf
