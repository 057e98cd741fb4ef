#include "pdf_cross_reference.h"

#include <charconv>

namespace loomleaf {
namespace {

constexpr std::size_t kRowBytes = 20;
constexpr std::string_view kFreeRow = "0000000000 65535 f ";

// The number that starts at `at`; `at` moves behind it.
std::size_t read_number(std::string_view text, std::size_t& at) {
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(text.data() + at, text.data() + text.size(), number);
  at = static_cast<std::size_t>(end - text.data());
  return error == std::errc() ? number : 0;
}

}  // namespace

void free_unwritten_objects(std::string& pdf) {
  constexpr std::string_view kStart = "startxref\n", kTable = "xref\n0 ";
  std::size_t at = pdf.rfind(kStart);
  if (at == std::string::npos) return;
  at += kStart.size();
  const std::size_t table = read_number(pdf, at);
  if (pdf.compare(table, kTable.size(), kTable) != 0) return;
  at = table + kTable.size();
  const std::size_t count = read_number(pdf, at);
  const std::size_t first_row = at + 1;
  if (count > (pdf.size() - first_row) / kRowBytes) return;
  for (std::size_t number = 1; number < count; ++number) {
    const std::size_t row = first_row + kRowBytes * number;
    std::size_t digits = row;
    const std::size_t offset = read_number(pdf, digits);
    const std::string want = std::to_string(number) + " 0 obj";
    const bool written = offset < pdf.size() && pdf.compare(offset, want.size(), want) == 0;
    if (pdf[row + 17] == 'n' && !written) pdf.replace(row, kFreeRow.size(), kFreeRow);
  }
}

}  // namespace loomleaf
