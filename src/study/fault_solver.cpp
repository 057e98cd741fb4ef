#include "fault_solver.h"

#include <Eigen/SparseCholesky>
#include <algorithm>

#include "loomleaf/circuit/joined_sets.h"

namespace loomleaf {
namespace {

Eigen::Index at(std::size_t i) { return static_cast<Eigen::Index>(i); }
int narrow(std::size_t i) { return static_cast<int>(i); }

}  // namespace

double fault_siemens(double ohm) { return 1.0 / std::max(ohm, least_fault_ohm); }

FaultSolver::FaultSolver(std::size_t nodes, const std::vector<FaultLink>& links, std::size_t ground)
    : row_of_(nodes, none) {
  JoinedSets joined(nodes);
  for (const FaultLink& link : links) joined.join(link.a, link.b);
  const std::size_t held = ground < nodes ? joined.root(ground) : none;
  std::size_t unknowns = 0;
  for (std::size_t node = 0; node < nodes; ++node) {
    const std::size_t root = joined.root(node);
    if (node != (root == held ? ground : root)) row_of_[node] = unknowns++;
  }
  std::vector<Eigen::Triplet<double>> entries;
  for (const FaultLink& link : links) {
    const std::size_t a = row_of_[link.a], b = row_of_[link.b];
    if (link.a == link.b) continue;
    if (a != none) entries.emplace_back(narrow(a), narrow(a), link.siemens);
    if (b != none) entries.emplace_back(narrow(b), narrow(b), link.siemens);
    if (a != none && b != none) entries.emplace_back(narrow(std::max(a, b)), narrow(std::min(a, b)), -link.siemens);
  }
  Eigen::SparseMatrix<double> matrix(at(unknowns), at(unknowns));
  matrix.setFromTriplets(entries.begin(), entries.end());
  Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> factor;
  if (unknowns > 0) factor.compute(matrix);

  const auto& place = factor.permutationP().indices();
  if (place.size() > 0)
    for (std::size_t& row : row_of_)
      if (row != none) row = static_cast<std::size_t>(place[at(row)]);
  if (unknowns > 0) {
    lower_ = factor.matrixL();
    const Eigen::VectorXd diagonal = factor.vectorD();
    diagonal_.assign(diagonal.data(), diagonal.data() + unknowns);
  }
  parent_.assign(unknowns, none);
  for (std::size_t row = 0; row < unknowns; ++row)
    for (Eigen::SparseMatrix<double>::InnerIterator entry(lower_, at(row)); entry; ++entry)
      if (static_cast<std::size_t>(entry.row()) > row)
        parent_[row] = std::min(parent_[row], static_cast<std::size_t>(entry.row()));
  drafted_.assign(unknowns, 0);
  solved_.assign(unknowns, 0);
  draft_.assign(unknowns, 0.0);
  value_.assign(unknowns, 0.0);
}

std::vector<double> FaultSolver::voltages(const std::vector<double>& ampere_in) const {
  std::vector<double> volt(row_of_.size(), 0.0);
  if (parent_.empty()) return volt;
  Eigen::VectorXd in = Eigen::VectorXd::Zero(at(parent_.size()));
  for (std::size_t node = 0; node < row_of_.size(); ++node)
    if (row_of_[node] != none) in[at(row_of_[node])] += ampere_in[node];
  lower_.triangularView<Eigen::UnitLower>().solveInPlace(in);
  for (std::size_t row = 0; row < parent_.size(); ++row) in[at(row)] /= diagonal_[row];
  lower_.transpose().triangularView<Eigen::UnitUpper>().solveInPlace(in);
  for (std::size_t node = 0; node < row_of_.size(); ++node)
    if (row_of_[node] != none) volt[node] = in[at(row_of_[node])];
  return volt;
}

double& FaultSolver::draft(std::size_t row) {
  if (drafted_[row] != stamp_) draft_[row] = 0.0;
  drafted_[row] = stamp_;
  return draft_[row];
}

void FaultSolver::start_of(std::size_t node, double ampere) {
  if (row_of_[node] != none) draft(row_of_[node]) += ampere;
}

// What is not zero on the way down the factor lies on the two ways up the elimination tree (Gilbert and Peierls, 1988).
void FaultSolver::draw(std::size_t from, std::size_t to) {
  ++stamp_;
  start_of(from, 1.0);
  start_of(to, -1.0);
  std::size_t a = row_of_[from], b = row_of_[to];
  while (a != none || b != none) {
    const std::size_t row = std::min(a, b);
    const double here = draft(row);
    for (Eigen::SparseMatrix<double>::InnerIterator entry(lower_, at(row)); entry; ++entry)
      if (static_cast<std::size_t>(entry.row()) > row)
        draft(static_cast<std::size_t>(entry.row())) -= entry.value() * here;
    if (a == row) a = parent_[row];
    if (b == row) b = parent_[row];
  }
}

double FaultSolver::fall(std::size_t node) {
  if (row_of_[node] == none) return 0.0;
  for (std::size_t row = row_of_[node]; row != none && solved_[row] != stamp_; row = parent_[row])
    climb_.push_back(row);
  for (; !climb_.empty(); climb_.pop_back()) {
    const std::size_t row = climb_.back();
    double value = drafted_[row] == stamp_ ? draft_[row] / diagonal_[row] : 0.0;
    for (Eigen::SparseMatrix<double>::InnerIterator entry(lower_, at(row)); entry; ++entry)
      if (static_cast<std::size_t>(entry.row()) > row)
        value -= entry.value() * value_[static_cast<std::size_t>(entry.row())];
    value_[row] = value;
    solved_[row] = stamp_;
  }
  return value_[row_of_[node]];
}

}  // namespace loomleaf
