// A direct-current network as plain numbers, and its solution by sparse nodal analysis.
//
// Nodes are numbered from 0. What conducts are links; what holds two nodes at a voltage are holds; what draws (or, with
// a negative current, pushes) hangs on ports. Sources may stand in series and anywhere in the network: the nodes that
// holds and links without resistance tie together become one unknown with known offsets.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

namespace loomleaf {

struct NetworkLink {
  std::size_t a = 0, b = 0;
  double ohm = 0.0;  // zero is allowed: the nodes are one, the current comes from Kirchhoff's law
};

struct NetworkHold {
  std::size_t plus = 0, minus = 0;
  double volt = 0.0;
};

struct NetworkPort {
  std::size_t plus = 0, minus = 0;
};

// What a port takes in at plus and gives back at minus when V stands across it: watt / V + siemens x V + ampere.
struct Demand {
  double watt = 0.0, siemens = 0.0, ampere = 0.0;
};

// A port that draws in step with what a hold delivers, as a converter's input does with its output.
struct NetworkTransfer {
  std::size_t hold = 0, port = 0;
};

struct NetworkShape {
  std::size_t nodes = 0;
  std::vector<NetworkLink> links;
  std::vector<NetworkHold> holds;
  std::vector<NetworkPort> ports;
  std::vector<NetworkTransfer> transfers;
};

// What a transfer's port is asked for, for each ampere that its hold delivers.
struct TransferGain {
  double watt_per_ampere = 0.0, ampere_per_ampere = 0.0;
};

struct NetworkDemands {
  std::vector<Demand> ports;            // by port
  std::vector<TransferGain> transfers;  // by transfer
};

// Where an island has no solution its values are not a number.
struct NetworkSolution {
  std::vector<double> node_volt;    // within an island against the node that was grounded
  std::vector<double> link_ampere;  // from a to b
  std::vector<double> port_ampere;  // into plus
  std::vector<double> hold_ampere;  // out of plus
  struct Collapse {
    std::size_t island = 0;
    std::optional<std::size_t> port;  // gives way first as all that draws in the island is raised together
  };
  std::vector<Collapse> collapses;  // in order of island
};

class Network {
 public:
  explicit Network(NetworkShape shape);
  ~Network();
  Network(Network&&) noexcept;
  Network& operator=(Network&&) noexcept;

  // Nodes that links, holds, ports or transfers tie together, however far, are one island. An island whose holds
  // contradict each other has no solution and is no collapse either.
  std::size_t island_of(std::size_t node) const;
  std::size_t island_count() const;
  // Nodes that are tied together by links and holds alone have voltages that can be compared.
  std::size_t component_of(std::size_t node) const;
  std::size_t component_count() const;

  // Newton's method from the network without load, so that of two solutions the upper is found.
  NetworkSolution solve(const NetworkDemands& demands);

  // The same from a solution of the same network whose demands were little or nowhere higher: an island that had
  // collapsed there stays so. Much quicker where little has changed.
  NetworkSolution solve_from(const NetworkSolution& start, const NetworkDemands& demands);

  // With fixed currents at all ports (no watt, no siemens), from a solution of the same network whose islands without
  // solution stay so.
  NetworkSolution solve_currents(const NetworkSolution& start, const NetworkDemands& demands);

 private:
  class Solver;
  std::unique_ptr<Solver> solver_;
};

}  // namespace loomleaf
