#include "exposure.h"

#include <algorithm>
#include <string_view>
#include <tuple>

#include "inflow.h"
#include "stretch.h"
#include "tolerance.h"

namespace loomleaf {
namespace {

constexpr double kSameShare = 1e-9;

int gravity(Exposure exposure) {
  switch (exposure) {
    case Exposure::open_stretch:
      return 3;
    case Exposure::too_far:
      return 2;
    case Exposure::too_thin_for_device:
      return 1;
    default:
      return 0;
  }
}

class ExposureJudge {
 public:
  ExposureJudge(const Plan& plan, const Routes& routes, const Circuit& circuit,
                const IndexedList<ConductorOf, ConductorFigures>& figures, const Rulebook& rulebook,
                const std::vector<Ways>& ways, const std::vector<Sides>& sides,
                const std::vector<FaultNetwork>& networks, const IndexedList<ConductorOf, bool>& exposed,
                const IndexedList<ConductorOf, InflowAtEnds>& at_ends,
                IndexedList<ConductorOf, ConductorProtection>& conductors)
      : plan_(plan),
        routes_(routes),
        circuit_(circuit),
        figures_(figures),
        rulebook_(rulebook),
        networks_(networks),
        exposed_list_(exposed),
        conductors_(conductors),
        exposed_(plan, circuit, exposed, ways, sides),
        judge_(plan, routes, circuit, figures, rulebook, exposed_, at_ends),
        is_removed_(circuit.branches.size(), false),
        feeding_terminal_(circuit.nodes.size()),
        most_at_any_point_(exposed.size(), 0) {
    for (const FaultNetwork& network : networks) finders_.emplace_back(circuit, network);
  }

  void judge() {
    for (const ConductorId id : exposed_list_.ids())
      if (exposed_list_[id]) conductors_[id].exposure = Exposure::open_stretch;  // until the points it is fed at tell
    find_feeding_points();
    std::vector<ExposedNetwork::Stretch> stretches;
    for (std::size_t i = 0; i < fed_.size(); ++i) {
      if (i == 0 || fed_[i].at != fed_[i - 1].at) stretches = exposed_.stretches_at(fed_[i].at);
      judge_from(fed_[i], stretches[fed_[i].which]);
    }
  }

 private:
  struct FedStretch {
    NodeId at;
    std::size_t which = 0;  // among the stretches there
    Microamperes inflow = 0;
  };

  void find_feeding_points() {
    for (const NodeId node : exposed_.nodes()) {
      if (!can_bring(node)) continue;
      const Microamperes alone = inflow(node, {});
      if (alone == 0) continue;
      const std::vector<ExposedNetwork::Stretch> stretches = exposed_.stretches_at(node);
      for (std::size_t i = 0; i < stretches.size(); ++i) {
        const bool may_differ = alone < kUnlimited && feeds_elsewhere(stretches[i]);
        const Microamperes flow = may_differ ? inflow(node, stretches[i].branches) : alone;
        if (flow == 0) continue;
        fed_.push_back({node, i, flow});
        for (const BranchId id : stretches[i].branches)
          if (const auto conductor = circuit_.branches[id].conductor)
            most_at_any_point_[*conductor] = std::max(most_at_any_point_[*conductor], flow);
      }
    }
  }

  bool can_bring(NodeId node) const {
    const JoinedThere& joined = exposed_.joined_at(node);
    if (joined.supply || !joined.further.empty()) return true;
    if (joined.devices.empty()) return false;
    return std::any_of(networks_.begin(), networks_.end(), [node](const FaultNetwork& network) {
      const std::size_t at = network.lumps().position(node);
      const WalkSpan ports = network.ports_in({at, at + 1});
      for (std::size_t p = ports.first; p < ports.last; ++p)
        if (network.ports()[p].kind == Port::Kind::device && !network.ports()[p].useless) return true;
      return false;
    });
  }

  bool feeds_elsewhere(const ExposedNetwork::Stretch& stretch) const {
    return std::any_of(stretch.nodes.begin(), stretch.nodes.end(), [this](NodeId node) { return can_bring(node); });
  }

  // Through a supply, device or conductor that is not exposed, joined at the node: what comes along exposed conductors
  // comes from another point.
  Microamperes inflow(NodeId node, const std::vector<BranchId>& stretch) {
    std::vector<BranchId> removed = stretch;
    removed.insert(removed.end(), exposed_.at(node).begin(), exposed_.at(node).end());
    for (const BranchId id : removed) is_removed_[id.value] = true;
    Microamperes most = 0;
    for (InflowFinder& finder : finders_) most = std::max(most, finder.into(node, removed, is_removed_));
    for (const BranchId id : removed) is_removed_[id.value] = false;
    return most;
  }

  bool is_fed_by(const FedStretch& fed, ConductorId conductor) const {
    const std::optional<Current>& may_carry = figures_[conductor].may_carry;
    return exceeds(fed.inflow, may_carry) || !exceeds(most_at_any_point_[conductor], may_carry);
  }

  void judge_from(const FedStretch& fed, const ExposedNetwork::Stretch& stretch) {
    const bool feeds_any = std::any_of(stretch.branches.begin(), stretch.branches.end(), [&](BranchId id) {
      const auto conductor = circuit_.branches[id].conductor;
      return conductor && is_fed_by(fed, *conductor);
    });
    if (!feeds_any) return;
    const StretchVerdict verdict = judge_.judge(fed.at, stretch);
    for (const Verdict& one : verdict.conductors)
      if (is_fed_by(fed, one.conductor) && !one.is_borne) take(verdict, one);
  }

  // The gravest point counts, among equals the farthest; the length is the greatest over all of them.
  void take(const StretchVerdict& stretch, const Verdict& verdict) {
    ConductorProtection& of = conductors_[verdict.conductor];
    of.exposed_length = of.exposed_length ? std::max(*of.exposed_length, verdict.reach) : verdict.reach;
    const auto weight = std::pair(gravity(verdict.exposure), verdict.reach);
    const auto weight_so_far = std::pair(gravity(of.exposure), of.reach.value_or(Length{}));
    if (of.reach && weight < weight_so_far) return;
    const TerminalId fed_at = feeding_terminal(verdict.counted_from);
    if (!of.reach || weight > weight_so_far) {
      of.reach = verdict.reach;
      of.exposure = verdict.exposure;
      of.tolerance = verdict.row;
      of.fed_at = fed_at;
      of.beyond.clear();
      of.further.clear();
      of.beyond_rating.reset();
    }
    // Of two points that weigh the same, what lies beyond either is told.
    if (comes_before(fed_at, *of.fed_at)) of.fed_at = fed_at;
    if (verdict.exposure == Exposure::open_stretch) {
      add_sorted(of.beyond, stretch.open_items);
      add_sorted(of.further, stretch.further);
    } else if (verdict.exposure == Exposure::too_thin_for_device) {
      const LargestDevice& device = verdict.device;
      if (!of.beyond_rating || device.rating > *of.beyond_rating) of.beyond.clear();
      if (of.beyond_rating && device.rating < *of.beyond_rating) return;
      add_sorted(of.beyond, std::vector{*device.item});
      of.beyond_rating = device.rating;
    }
  }

  template <class Id>
  static void add_sorted(std::vector<Id>& list, const std::vector<Id>& more) {
    list.insert(list.end(), more.begin(), more.end());
    std::sort(list.begin(), list.end());
    list.erase(std::unique(list.begin(), list.end()), list.end());
  }

  // A supply's terminal before a bus or splice before a device's before any other, then by name.
  bool comes_before(TerminalId a, TerminalId b) const {
    const auto key = [this](TerminalId id) {
      const Terminal& terminal = plan_.terminals[id];
      const Item& item = plan_.items[terminal.item];
      const bool is_supply = (item.is<Source>() && terminal.role == TerminalRole::plus) ||
                             (item.is<Converter>() && terminal.role == TerminalRole::out_plus);
      return std::tuple(is_supply                             ? 0
                        : item.is<Bus>() || item.is<Splice>() ? 1
                        : item.is<Device>()                   ? 2
                                                              : 3,
                        std::string_view(item.id), std::string_view(terminal.name));
    };
    return key(a) < key(b);
  }

  TerminalId feeding_terminal(NodeId node) {
    std::optional<TerminalId>& first = feeding_terminal_[node];
    if (!first) {
      const std::vector<TerminalId>& terminals = circuit_.nodes[node].terminals;
      first = *std::ranges::min_element(terminals, [this](TerminalId a, TerminalId b) { return comes_before(a, b); });
    }
    return *first;
  }

  const Plan& plan_;
  const Routes& routes_;
  const Circuit& circuit_;
  const IndexedList<ConductorOf, ConductorFigures>& figures_;
  const Rulebook& rulebook_;
  const std::vector<FaultNetwork>& networks_;
  const IndexedList<ConductorOf, bool>& exposed_list_;
  IndexedList<ConductorOf, ConductorProtection>& conductors_;
  ExposedNetwork exposed_;
  StretchJudge judge_;
  std::vector<InflowFinder> finders_;
  std::vector<bool> is_removed_;
  IndexedList<NodeOf, std::optional<TerminalId>> feeding_terminal_;  // once asked for
  std::vector<FedStretch> fed_;
  IndexedList<ConductorOf, Microamperes> most_at_any_point_;
};

}  // namespace

bool exceeds(Microamperes flow, const std::optional<Current>& may_carry) {
  if (flow >= kUnlimited || !may_carry) return flow >= kUnlimited;
  return to_current(flow).in(amperes) > may_carry->in(amperes) * (1.0 + kSameShare);
}

void judge_exposure(const Plan& plan, const Routes& routes, const Circuit& circuit,
                    const IndexedList<ConductorOf, ConductorFigures>& figures, const Rulebook& rulebook,
                    const std::vector<Ways>& ways, const std::vector<Sides>& sides,
                    const std::vector<FaultNetwork>& networks, const IndexedList<ConductorOf, bool>& exposed,
                    const IndexedList<ConductorOf, InflowAtEnds>& inflow,
                    IndexedList<ConductorOf, ConductorProtection>& conductors) {
  ExposureJudge(plan, routes, circuit, figures, rulebook, ways, sides, networks, exposed, inflow, conductors).judge();
}

}  // namespace loomleaf
