// A plan as a list of statements whose pieces a test can change before it is written out.
#pragma once

#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

namespace loomleaf::test {

struct Statement {
  std::string keyword, id;
  std::vector<std::pair<std::string, std::string>> pieces;  // what it tells ("size"), as written ("14 AWG"); in order

  bool tells(const std::string& what) const;
  const std::string& piece(const std::string& what) const;  // throws where it is not told
  void tell(const std::string& what, std::string written);  // anew or in place of what was told
  void untell(const std::string& what);
};

class Statements {
 public:
  Statement& add(std::string keyword, std::string id, std::vector<std::pair<std::string, std::string>> pieces);
  // wire ID FROM to TO
  Statement& add_wire(const std::string& id, const std::string& from, const std::string& to, const std::string& size,
                      const std::string& colour, const std::string& length);
  Statement& of(const std::string& id);  // throws where there is none
  const Statement& of(const std::string& id) const;
  void take_out(const std::string& id);

  std::vector<Statement>& list() { return list_; }
  const std::vector<Statement>& list() const { return list_; }
  std::string text() const;  // one statement a line

 private:
  std::vector<Statement> list_;
  std::unordered_map<std::string, std::size_t> position_;  // by ID; those taken out stay as empty statements
};

}  // namespace loomleaf::test
