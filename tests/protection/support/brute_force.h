// Let-through straight from its definition, by trying every set of cuts: slow, plain, and independent of the study's
// code.
#pragma once

#include <limits>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "loomleaf/circuit/circuit.h"
#include "loomleaf/study/ways.h"

namespace loomleaf::test {

inline constexpr long long kNoLimit_uA = std::numeric_limits<long long>::max();

struct BruteFlow {
  long long most_uA = kNoLimit_uA;
  std::set<std::string> held_by;
  bool operator>(const BruteFlow& other) const { return most_uA > other.most_uA; }
  bool is_bounded() const { return most_uA != kNoLimit_uA; }
};

struct BruteLetThrough {
  bool is_feed = false, is_return = false;
  BruteFlow feed, back;
  bool back_through_battery = false;  // more comes back where a battery is fed
  bool back_by_ways = false;          // less where ways home are looked at than where all count
};

class BruteForce {
 public:
  BruteForce(const Plan& plan, const Circuit& circuit, const Ways& ways);
  BruteLetThrough of(ConductorId conductor) const;
  bool has_dead_short() const;
  bool is_feed(NodeId node) const { return feed_side().count(node.value) > 0; }

  // The greatest flow into a node as feed, with these branches taken away.
  BruteFlow feed_into(NodeId node, const std::set<std::uint32_t>& without, bool batteries_alone = false) const;

  // Nodes. Of the - only those on the return side.
  std::set<std::size_t> plus_poles(bool batteries_alone) const;
  std::set<std::size_t> minus_poles(bool batteries_alone) const;
  std::set<std::size_t> reached(const std::set<std::size_t>& from, const std::set<std::uint32_t>& without) const {
    return reached_from(from, without);
  }
  std::vector<BranchId> conducting() const;
  // Node to node, what may be shorted from feed to return.
  std::vector<std::pair<std::size_t, std::size_t>> shorted_loads() const;

 private:
  struct Edge {
    std::size_t a, b;
    long long most_uA;
    std::string name;
    std::uint32_t branch;
    bool one_way = false;  // from a to b alone: a shorted load
  };
  struct Emf {
    std::string name;
    std::size_t plus, minus;
    long long most_uA;
    bool is_source;
    bool is_battery() const { return is_source && most_uA == kNoLimit_uA; }
  };
  using Names = std::set<std::string>;
  using Nodes = std::set<std::size_t>;
  using Branches = std::set<std::uint32_t>;

  Nodes reached_from(const Nodes& from, const Branches& without, bool free_only = false) const;
  Nodes feed_side(const std::string& but = {}) const;
  Nodes return_side(const std::string& but = {}) const;
  void add_shorted(const Item& item, NodeId plus, NodeId minus);
  void find_banks();
  Branches bundle_of(const Branch& branch) const;
  Names supplies_of(std::size_t end, const Branches& without) const;
  struct Back {
    BruteFlow most, through_loads_alone;
    bool by_ways = false;
  };
  Back back_into(std::size_t end, std::size_t other, const Branch& branch) const;
  // What the supplies called so bring to a node, the greatest over every choice of banks that are fed, through those
  // loads that return at such nodes; and with no bank fed but those of which nothing counts.
  Back back_from(const Names& counted, std::size_t end, const Branches& without, const Nodes* returning) const;
  // Every way between two nodes that meets no node twice.
  std::vector<std::vector<std::size_t>> simple_ways(std::size_t from, std::size_t to, const Branches& without) const;
  std::optional<std::size_t> corner_of(std::size_t node, const Nodes& ring) const;
  std::optional<BruteFlow> back_by_ways(std::size_t end, std::size_t other, const Branches& without) const;
  Names with_series(Names counted) const;
  BruteFlow flow(std::size_t target, const std::vector<Emf>& from, const Branches& without,
                 const std::vector<Edge>& loads = {}) const;

  const Plan& plan_;
  const Circuit& circuit_;
  std::vector<Edge> conducting_, shorted_;
  std::vector<Emf> supplies_;
  std::vector<Names> banks_;
};

}  // namespace loomleaf::test
