// The installation as a network: nodes, the branches that conduct, and what is joined between nodes.
#pragma once

#include <optional>
#include <vector>

#include "loomleaf/plan/plan.h"

namespace loomleaf {

using NodeId = Index<struct NodeOf>;
using BranchId = Index<struct BranchOf>;
using ChangerId = Index<struct ChangerOf>;

// Terminals joined without wire.
struct Node {
  std::vector<TerminalId> terminals;     // in order
};

enum class BranchKind { conductor, device, contact };

// What conducts between two nodes. A changeover has one branch for each way, a connector one for each pole, a dimmer
// one for its feed and one for its return, a relay 30-87 and 30-87a.
struct Branch {
  BranchKind kind = BranchKind::conductor;
  NodeId a, b;                           // a conductor's from and to; a device's in and out; a relay's 30 and 87/87a
  TerminalId terminal_a, terminal_b;
  std::optional<ConductorId> conductor;
  std::optional<ItemId> item;            // device or contact
  int pole = 1;
  std::optional<ChangerId> changer;      // set where the branch conducts in one way of a changeover alone
  int way = 0;                           // that way, from 0; in a position `both` too
};

// A contact that joins one thing or another: a switch of several ways (all its poles together) or a relay.
struct Changer {
  ItemId item;
  int ways = 2;                          // a switch's n ways; a relay: way 0 at rest (30-87a where joined), 1 energised (30-87)
  std::vector<BranchId> branches;
  bool both = false;                     // it has one more position, in which all its ways are closed: way `ways`

  int positions() const { return both ? ways + 1 : ways; }
  // Whether a branch of this way conducts in this position.
  bool closes(int way, int position) const { return position == way || position == ways; }
};

// Items that stand between two nodes and are no branch.
struct TwoPole {
  ItemId item;
  NodeId plus, minus;
};

struct ConverterPorts {
  ItemId item;
  NodeId in_plus, in_minus, out_plus, out_minus;
};

struct Circuit {
  IndexedList<NodeOf, Node> nodes;
  IndexedList<BranchOf, Branch> branches;
  IndexedList<TerminalOf, NodeId> node_of;       // every terminal's node
  IndexedList<ConductorOf, BranchId> branch_of;  // every conductor's branch
  IndexedList<NodeOf, std::vector<BranchId>> at; // the branches that end at a node (a branch to itself once)
  IndexedList<ChangerOf, Changer> changers;
  std::vector<TwoPole> sources, loads, coils;    // in the plan's order; a coil's plus is 86 or 85 as it lies (85 = minus)
  std::vector<ConverterPorts> converters;
};

// A signal conductor is a branch like others (protection needs it); `also` terminals are nodes of their own.
Circuit build_circuit(const Plan& plan);

}  // namespace loomleaf
