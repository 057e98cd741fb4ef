// A resistive network in which many shorts are tried one after the other. It is factored once; a short then costs no
// more than its way through the elimination tree, and a voltage is worked out where it is asked for alone.
#pragma once

#include <Eigen/SparseCore>
#include <cstddef>
#include <vector>

namespace loomleaf {

// What conducts for a short circuit. Parts without a resistance of their own get a very small one.
struct FaultLink {
  std::size_t a = 0, b = 0;
  double siemens = 0.0;
};
constexpr double least_fault_ohm = 1e-7;  // a tenth of a millimetre of battery cable
double fault_siemens(double ohm);

class FaultSolver {
 public:
  // Whatever hangs together is grounded at its lowest node, or at this one where it is among it.
  FaultSolver(std::size_t nodes, const std::vector<FaultLink>& links, std::size_t ground = 0);

  // Voltages, by node, with these currents flowing in from outside; within what hangs together they come to nothing.
  std::vector<double> voltages(const std::vector<double>& ampere_in) const;

  // One ampere is drawn at `from` and given back at `to`, which must hang together.
  void draw(std::size_t from, std::size_t to);
  // How far that ampere lowers the voltage of a node: greatest at `from`, least at `to`.
  double fall(std::size_t node);

 private:
  static constexpr std::size_t none = static_cast<std::size_t>(-1);
  void start_of(std::size_t node, double ampere);
  double& draft(std::size_t row);

  std::vector<std::size_t> row_of_;  // by node: its row in the factor; none: grounded
  std::vector<std::size_t> parent_;  // by row: the next one up the elimination tree
  Eigen::SparseMatrix<double> lower_;
  std::vector<double> diagonal_;
  // Of the draw at hand; the stamp says whether a row holds a figure of this draw.
  std::size_t stamp_ = 0;
  std::vector<std::size_t> drafted_, solved_;
  std::vector<double> draft_, value_;
  std::vector<std::size_t> climb_;
};

}  // namespace loomleaf
