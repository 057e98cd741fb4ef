// Nodes and branches: what is joined without wire, and what conducts.
#include <gmock/gmock.h>

#include "loomleaf/circuit/dump.h"
#include "support/read_plan.h"

namespace loomleaf {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

std::string circuit_of(const std::string& text) {
  const ReadPlan read = read_plan(text);
  EXPECT_EQ(read.said, "");
  return dump(read.plan, build_circuit(read.plan));
}

TEST(Node, HoldsWhatIsOnABus) {
  EXPECT_THAT(circuit_of("bus PB\nfuse F1..F2 5 A on PB\nfuse F3 5 A on F1\n"),
              HasSubstr("node PB = F1.in = F2.in\nnode F1.out = F3.in\n"));
}

TEST(Node, IsOneForTheNegativesOfAConverterThatIsNotIsolated) {
  EXPECT_THAT(circuit_of("converter CV out 5 V 3 A\n"), HasSubstr("node CV.in- = CV.out-\n"));
  EXPECT_THAT(circuit_of("converter CV out 5 V 3 A isolated\n"), HasSubstr("node CV.in-\n"));
}

TEST(Node, OfAnAlsoTerminalIsItsOwn) {
  EXPECT_THAT(circuit_of("shunt SH 100 A also sense\n"), HasSubstr("node SH.sense\n"));
  EXPECT_THAT(circuit_of("bus PB also lamp\n"), HasSubstr("node PB\nnode PB.lamp\n"));
}

TEST(Branch, IsOneForEveryConductorAndDevice) {
  const std::string text = circuit_of(
      "source BAT 12 V 10 Ah\nfuse F1 5 A\nload L1 3 W\nwire W1 BAT+ to F1 16 AWG 1 m\n"
      "cable C1 F1, BAT- to L1 16 AWG 1 m\n");
  EXPECT_THAT(text,
              HasSubstr("conductor W1: BAT+ to F1.in\nconductor C1.1: F1.out to L1+\nconductor C1.2: BAT- to L1-\n"
                        "device F1: F1.in to F1.out\n"));
}

TEST(Branch, IsOneForEachRunOfADimmerAndEachPoleOfAConnector) {
  EXPECT_THAT(circuit_of("dimmer D1 8 A\n"),
              HasSubstr("contact D1: D1.in+ to D1.out+\ncontact D1: D1.in- to D1.out-\n"));
  EXPECT_THAT(circuit_of("connector X1 2 poles\n"),
              HasSubstr("contact X1: X1.in1 to X1.out1\ncontact X1: X1.in2 to X1.out2\n"));
}

TEST(Changer, IsOneForAllPolesOfASwitch) {
  const ReadPlan read = read_plan("switch S1 5 A 2 poles 3 ways\nswitch S2 5 A\n");
  const Circuit circuit = build_circuit(read.plan);
  ASSERT_EQ(circuit.changers.size(), 1u);
  EXPECT_EQ(circuit.changers[ChangerId(std::size_t{0})].ways, 3);
  EXPECT_EQ(circuit.changers[ChangerId(std::size_t{0})].branches.size(), 6u);
  EXPECT_THAT(dump(read.plan, circuit),
              HasSubstr("contact S1 way 2: S1.2.in to S1.2.out3\ncontact S2: S2.in to S2.out\n"));
}

TEST(Relay, RestsOn87aAndMakes87) {
  const ReadPlan read = read_plan("relay R1 contact 30 A coil 2 W\n");
  const Circuit circuit = build_circuit(read.plan);
  EXPECT_THAT(dump(read.plan, circuit),
              HasSubstr("contact R1 way 0: R1.30 to R1.87a\ncontact R1 way 1: R1.30 to R1.87\n"));
  ASSERT_EQ(circuit.coils.size(), 1u);
  EXPECT_EQ(node_text(read.plan, circuit, circuit.coils[0].plus), "R1.86");
  EXPECT_EQ(node_text(read.plan, circuit, circuit.coils[0].minus), "R1.85");
}

TEST(Circuit, KnowsTheBranchesAtEachNode) {
  const ReadPlan read =
      read_plan("bus PB\nfuse F1 5 A on PB\nwire W1 PB to F1.in 16 AWG 1 m\nwire W2 PB to F1.out 16 AWG 1 m\n");
  const Circuit circuit = build_circuit(read.plan);
  // W1 begins and ends at the bus: once; W2 and the fuse itself
  EXPECT_THAT(circuit.at[circuit.node_of[TerminalId(std::size_t{0})]],
              ElementsAre(BranchId(std::size_t{0}), BranchId(std::size_t{1}), BranchId(std::size_t{2})));
}

TEST(Circuit, ListsSourcesLoadsAndConverters) {
  const ReadPlan read = read_plan("load L1 3 W\nsource BAT 12 V 10 Ah\nconverter CV out 5 V 3 A\n");
  const Circuit circuit = build_circuit(read.plan);
  EXPECT_EQ(circuit.loads.size(), 1u);
  EXPECT_EQ(node_text(read.plan, circuit, circuit.sources.at(0).plus), "BAT+");
  EXPECT_EQ(node_text(read.plan, circuit, circuit.converters.at(0).out_plus), "CV.out+");
  EXPECT_THAT(dump(read.plan, circuit), Not(HasSubstr("contact CV")));
}

}  // namespace
}  // namespace loomleaf
