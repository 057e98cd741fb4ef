// Small installations built by hand, as plan, routes, circuit and figures at once.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "loomleaf/study/protection.h"

namespace loomleaf::test {

// Terminals are written as in a plan: "BAT+", "F1.in", "S1.out2", "R1.87", "PB".
class TestPlan {
 public:
  ItemId battery(const std::string& id, double volts = 12.8);
  ItemId limited(const std::string& id, double limit_A, double volts = 12.8, Source::Kind kind = Source::Kind::solar);
  ItemId fuse(const std::string& id, double rating_A);
  ItemId isolator(const std::string& id);
  ItemId changeover(const std::string& id, int ways, bool both = false);
  ItemId relay(const std::string& id);
  ItemId load(const std::string& id, Load::Kind kind = Load::Kind::electronic);
  ItemId bus(const std::string& id);
  ItemId tail(const std::string& id);
  ItemId dimmer(const std::string& id);
  ItemId converter(const std::string& id, double rating_A, double out_volts = 12.0, bool isolated = false);
  void also(const std::string& item, const std::string& name);  // a further terminal
  void on(const std::string& item,
          const std::string& terminal);  // a device or switch by its `in`, a source or load by its -

  ConductorId wire(const std::string& id, const std::string& from, const std::string& to, double may_carry_A = 1e6,
                   double length_m = 1.0, bool sheathed = false);
  void make_signal(const std::string& wire) { runs_of(wire).signal = true; }
  void make_bond(const std::string& wire) { runs_of(wire).bond = true; }

  Plan plan;
  Routes routes;
  IndexedList<ConductorOf, ConductorFigures> figures;
  Circuit circuit() const;  // made from the plan anew
  TerminalId terminal(const std::string& name) const { return terminals_.at(name); }
  ConductorId conductor(const std::string& id) const { return conductors_.at(id); }
  ItemId item(const std::string& id) const { return items_.at(id); }

 private:
  ItemId add(const std::string& id, ItemData data);
  TerminalId add_terminal(ItemId item, TerminalRole role, const std::string& name, const std::string& text,
                          int way = 1);
  Run& runs_of(const std::string& wire) { return plan.runs[plan.conductors[conductor(wire)].run]; }

  std::map<std::string, TerminalId> terminals_;
  std::map<std::string, ConductorId> conductors_;
  std::map<std::string, ItemId> items_;
};

std::vector<std::string> names(const Plan& plan, const std::vector<ItemId>& items);

}  // namespace loomleaf::test
