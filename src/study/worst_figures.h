// Keeps the worst of what the cases bring.
#pragma once

#include <map>
#include <vector>

#include "case_list.h"
#include "loomleaf/study/working_point.h"
#include "metalwork.h"

namespace loomleaf {

class WorstFigures {
 public:
  WorstFigures(const Plan& plan, const Circuit& circuit, const std::vector<FinalCircuit>& circuits,
               WorkingPoints& points);

  void take(const CaseSetup& setup, const Solution& solution, const WiredNetwork& network);
  // Of a case in which islands have collapsed: what is asked for there at rated voltage.
  void take_asked(const CaseSetup& setup, const std::vector<Solution::Collapse>& collapses, const Solution& asked,
                  const WiredNetwork& network);

  // What one final circuit has to itself, its device among the branches.
  const std::vector<std::size_t>& loads_of(const FinalCircuit& circuit) const;  // positions

 private:
  // A splice, bus or chassis, and what meets in it other than branches.
  struct Joint {
    ItemId item;
    NodeId node;
    std::vector<std::size_t> loads, sources, coils, converters;  // positions
  };
  void list_joints(const std::vector<FinalCircuit>& circuits);
  void take_branch(BranchId branch, const Solution& solution);
  void take_source(ItemId item, double ampere);
  void take_load(std::size_t position, const Solution& solution, const WiredNetwork& network);
  void take_joint(const Joint& joint, const Solution& solution);
  void take_converter(std::size_t position, const Solution& solution);
  double joint_ampere(const Joint& joint, const Solution& solution) const;

  const Plan& plan_;
  const Circuit& circuit_;
  WorkingPoints& points_;
  std::size_t this_case_ = 0;
  bool lasts_ = true;  // this case is more than a matter of seconds
  std::vector<Joint> joints_;
  Metalwork metalwork_;
  struct Own {
    std::vector<std::size_t> loads, converters, joints;  // positions
  };
  std::map<ItemId, Own> own_;  // by final device
};

}  // namespace loomleaf
