// Small pieces of English for complaints.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace loomleaf {

std::string with_article(std::string_view noun);                // "a fuse", "an alternator"
std::string or_list(const std::vector<std::string>& choices);   // "a, b or c"
std::string one_of(const std::vector<std::string>& choices);    // "one of a, b, c"
std::string counted(std::size_t count, std::string_view noun);  // "1 way", "3 ways"

}  // namespace loomleaf
