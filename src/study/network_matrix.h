// The conductance matrix of a network: its pattern is laid down once, values change at the ports alone.
#pragma once

#include <Eigen/SparseCholesky>
#include <cstddef>
#include <vector>

#include "held_nodes.h"
#include "loomleaf/study/network.h"

namespace loomleaf {

// Links with less count as having none: a millimetre of the thickest cable has more.
constexpr double negligible_ohm = 1e-9;
constexpr std::size_t no_unknown = static_cast<std::size_t>(-1);

// A link that carries nothing, so that both its ends stand at one voltage: what is known at `from` is known at `to`.
struct PatchStep {
  std::size_t from = 0, to = 0;  // nodes
};

// Which potentials are unknown, and what hangs together. Parts that only idle links join are solved apart, each against
// a ground of its own, and set side by side in the end.
struct NetworkLayout {
  HeldNodes held;
  std::vector<std::size_t> resistive_links;     // positions in the shape's links, but those that carry nothing
  std::vector<std::size_t> tied_links;          // those without resistance, in the order of their ties
  std::vector<Tie> ties;                        // tied links first, then the holds
  std::vector<std::size_t> component_of_group;  // joined by links: voltages compare
  std::vector<std::size_t> patch_of_group;      // joined by links that carry something
  std::vector<std::size_t> island_of_group;     // joined by ports and transfers too
  std::size_t components = 0, patches = 0, islands = 0;
  std::vector<std::size_t> ground_of_patch;  // a group
  std::vector<PatchStep> steps;              // each leads to a patch from one that stands already
  std::vector<bool> island_contradicted;
  std::vector<std::size_t> unknown_of_group;  // no_unknown: the one that is grounded in its patch
  std::vector<std::size_t> island_of_unknown;

  std::size_t unknown_at(std::size_t node) const { return unknown_of_group[held.group_of[node]]; }
  std::size_t patch_at(std::size_t node) const { return patch_of_group[held.group_of[node]]; }
  std::size_t island_at(std::size_t node) const { return island_of_group[held.group_of[node]]; }
};

NetworkLayout lay_out(const NetworkShape& shape);

class ConductanceMatrix {
 public:
  ConductanceMatrix(const NetworkShape& shape, const NetworkLayout& layout);

  // The links alone.
  const Eigen::SparseMatrix<double>& without_ports();
  // With what each port adds, by port (siemens; a constant power adds a negative one).
  const Eigen::SparseMatrix<double>& with_ports(const std::vector<double>& siemens);

 private:
  // Where a conductance between two unknowns goes among the stored values.
  struct Stamp {
    std::size_t a = no_unknown, b = no_unknown, between = no_unknown;
  };
  Stamp find_stamp(std::size_t a, std::size_t b) const;
  void add(const Stamp& stamp, double siemens);

  Eigen::SparseMatrix<double> matrix_;  // lower triangle
  std::vector<double> links_alone_;     // its values
  std::vector<Stamp> ports_;
};

}  // namespace loomleaf
