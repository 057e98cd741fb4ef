// Returns in a ring carry what passes over them on its way home, and not what has nothing to seek there.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "protection/support/let_through.h"

namespace loomleaf {
namespace {

using test::LetThrough;
using testing::ElementsAre;

// A van: the starter battery's - is on the body, the house battery's - on a bar that is bonded to it. The charger
// between them is not isolated: its one - is joined to both, so that bar, charger and body make a ring.
class LetThroughOfARingByTheBody : public LetThrough {
 protected:
  void van(double charger_fuse_A, double charger_A, double house_A) {
    house(1000);  // the house battery, PB and NB
    built.battery("START");
    built.bus("BODY");
    built.wire("STRAP", "START-", "BODY");
    built.wire("BOND", "NB", "BODY");
    built.converter("DC", charger_A);
    built.fuse("FI", charger_fuse_A);
    built.on("FI", "START+");
    built.wire("IN", "FI.out", "DC.in+");
    built.wire("NIN", "DC.in-", "BODY");
    built.wire("NOUT", "DC.out-", "NB");
    built.fuse("FO", 50);
    built.wire("OUT", "DC.out+", "FO.in");
    built.wire("OUT2", "FO.out", "PB");
    circuit("1", house_A);
  }
};

// The house loads come to the bar and leave it there for the house battery, whatever they are fused at.
TEST_F(LetThroughOfARingByTheBody, CarriesWhatTheChargerTakesAndGivesAlone) {
  van(60, 30, 500);
  EXPECT_EQ(amps("NIN"), 60);
  EXPECT_THAT(by("NIN"), ElementsAre("FI"));
  EXPECT_EQ(amps("NOUT"), 60);
  EXPECT_EQ(amps("BACK"), 500);
}

// The bond bears what the charger takes, where its own return is off, and what it gives, where the other one is.
TEST_F(LetThroughOfARingByTheBody, BondCarriesBothOfTheCharger) {
  van(60, 30, 500);
  EXPECT_EQ(amps("BOND"), 90);
  EXPECT_THAT(by("BOND"), ElementsAre("DC", "FI"));
}

// A house load that returns to the body has to pass the ring to get home.
TEST_F(LetThroughOfARingByTheBody, CarriesALoadThatReturnsAtTheBody) {
  van(20, 15, 500);
  built.fuse("F2", 40);
  built.on("F2", "PB");
  built.load("L2");
  built.wire("OUT9", "F2.out", "L2+");
  built.wire("RET9", "L2-", "BODY");
  EXPECT_EQ(amps("BOND"), 55);  // and what the charger brings to it; what that takes itself flows the other way
  EXPECT_EQ(amps("NIN"), 55);
}

// Five fused batteries, their - in a ring: more choices than are tried, and no less than four bring.
TEST_F(LetThrough, RingOfManyBatteriesCarriesNoLessThanOneOfFewer) {
  std::vector<double> carries;
  for (const int count : {4, 5, 20}) {
    built = {};
    built.bus("PB");
    for (int i = 0; i < count; ++i) {
      const std::string n = std::to_string(i);
      built.battery("B" + n);
      built.fuse("F" + n, 100);
      built.on("F" + n, "B" + n + "+");
      built.wire("P" + n, "F" + n + ".out", "PB");
    }
    for (int i = 0; i < count; ++i)
      built.wire("R" + std::to_string(i), "B" + std::to_string(i) + "-", "B" + std::to_string((i + 1) % count) + "-");
    carries.push_back(amps("R0"));
  }
  EXPECT_EQ(carries[0], 200);  // two feed the other two
  EXPECT_GE(carries[1], carries[0]);
  EXPECT_GE(carries[2], 1000);  // ten feed the other ten
}

}  // namespace
}  // namespace loomleaf
