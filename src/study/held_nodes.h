// Nodes whose voltages differ by a known amount, because a source or a link without resistance stands between them.
#pragma once

#include <Eigen/SparseCholesky>
#include <cstddef>
#include <vector>

namespace loomleaf {

// What ties two nodes: volt(a) - volt(b) is known.
struct Tie {
  std::size_t a = 0, b = 0;
  double volt = 0.0;
};

struct HeldNodes {
  std::vector<std::size_t> group_of;  // by node
  std::vector<double> offset;         // by node: its voltage above its group's
  std::size_t groups = 0;
  std::vector<std::size_t> contradicted;  // groups in which two ways round a ring of ties differ
};

HeldNodes hold_nodes(std::size_t nodes, const std::vector<Tie>& ties);

// The currents in the ties, from what leaves each node otherwise. Round a ring of ties, where Kirchhoff's law leaves
// the split open, they share as equal small resistances would.
class TieCurrents {
 public:
  TieCurrents(std::size_t nodes, const std::vector<Tie>& ties, const HeldNodes& held);
  // From a to b through each tie.
  std::vector<double> from_leaving(const std::vector<double>& leaving) const;

 private:
  std::vector<Tie> ties_;
  std::vector<std::size_t> unknown_of_;  // by node
  std::vector<std::size_t> nodes_;       // by unknown
  Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factor_;
};

}  // namespace loomleaf
