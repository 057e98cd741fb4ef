#include "faults/support/statements.h"

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace loomleaf::test {

namespace {

auto find_piece(auto& pieces, const std::string& what) {
  return std::find_if(pieces.begin(), pieces.end(), [&](const auto& piece) { return piece.first == what; });
}

}  // namespace

bool Statement::tells(const std::string& what) const { return find_piece(pieces, what) != pieces.end(); }

const std::string& Statement::piece(const std::string& what) const {
  const auto found = find_piece(pieces, what);
  if (found == pieces.end()) throw std::out_of_range(id + " tells no " + what);
  return found->second;
}

void Statement::tell(const std::string& what, std::string written) {
  const auto found = find_piece(pieces, what);
  if (found == pieces.end())
    pieces.emplace_back(what, std::move(written));
  else
    found->second = std::move(written);
}

void Statement::untell(const std::string& what) {
  const auto found = find_piece(pieces, what);
  if (found != pieces.end()) pieces.erase(found);
}

Statement& Statements::add(std::string keyword, std::string id,
                           std::vector<std::pair<std::string, std::string>> pieces) {
  if (!id.empty()) position_[id] = list_.size();
  list_.push_back({std::move(keyword), std::move(id), std::move(pieces)});
  return list_.back();
}

Statement& Statements::add_wire(const std::string& id, const std::string& from, const std::string& to,
                                const std::string& size, const std::string& colour, const std::string& length) {
  return add("wire", id, {{"from", from}, {"to", "to " + to}, {"size", size}, {"colour", colour}, {"length", length}});
}

const Statement& Statements::of(const std::string& id) const {
  const auto found = position_.find(id);
  if (found == position_.end()) throw std::out_of_range("no statement of " + id);
  return list_[found->second];
}
Statement& Statements::of(const std::string& id) { return const_cast<Statement&>(std::as_const(*this).of(id)); }

void Statements::take_out(const std::string& id) {
  of(id) = {};
  position_.erase(id);
}

std::string Statements::text() const {
  std::string text;
  for (const Statement& statement : list_) {
    if (statement.keyword.empty()) continue;
    text += statement.keyword;
    if (!statement.id.empty()) text += ' ' + statement.id;
    for (const auto& [what, written] : statement.pieces) {
      if (!written.empty()) text += ' ' + written;
    }
    text += '\n';
  }
  return text;
}

}  // namespace loomleaf::test
