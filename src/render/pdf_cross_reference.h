// Puts right what Cairo 1.16 leaves wrong in a PDF that has links.
#pragma once

#include <string>

namespace loomleaf {

// Each page with a link has one object number that is reserved and never written; its row in the cross-reference table
// then points at another object, and strict readers call the file damaged. Such rows become free entries. Rows keep
// their 20 bytes, so nothing moves. A file of another form is left as it is.
void free_unwritten_objects(std::string& pdf);

}  // namespace loomleaf
