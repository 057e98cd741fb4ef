// Lengths and ways, worked out by hand.
#include <gmock/gmock.h>

#include "loomleaf/route/dump.h"
#include "support/read_plan.h"

namespace loomleaf {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// The routes of a plan, one line a run; tails A, B and C stand where the text says.
std::string routes_of(const std::string& text) {
  const ReadPlan read = read_plan("default wire 16 AWG\ndefault cable 16 AWG\n" + text);
  EXPECT_EQ(read.said, "");
  const RouteReading reading = find_routes(read.plan);
  EXPECT_THAT(reading.complaints, IsEmpty());
  return dump(read.plan, reading.routes);
}

std::string complaint_of(const std::string& text) {
  const ReadPlan read = read_plan("default wire 16 AWG\ndefault cable 16 AWG\n" + text);
  const RouteReading reading = find_routes(read.plan);
  return reading.complaints.empty() ? "" : reading.complaints.front().message;
}

const std::string square = R"(
place P
place Q
place R
place S
leg PQ P to Q 2 m
leg QS Q to S 2 m
leg PR P to R 2 m
leg RS R to S 2 m
)";

TEST(Route, IsTheShortest) {
  EXPECT_EQ(routes_of(square + "leg X P to S 3.9 m\ntail A at P\ntail B at S\nwire W A to B\n"), "W 3.9 m: P S\n");
  EXPECT_EQ(routes_of(square + "leg X P to S 4.1 m\ntail A at P\ntail B at R\nwire W A to B\n"), "W 2 m: P R\n");
}

TEST(Route, OfEqualLengthHasFewestLegs) {
  EXPECT_EQ(routes_of(square + "leg X P to S 4 m\ntail A at P\ntail B at S\nwire W A to B\n"), "W 4 m: P S\n");
}

TEST(Route, OfEqualLengthAndLegsGoesByPlaceId) {
  EXPECT_EQ(routes_of(square + "tail A at P\ntail B at S\nwire W A to B\n"), "W 4 m: P Q S\n");
  EXPECT_EQ(routes_of(square + "tail A at S\ntail B at P\nwire W A to B\n"), "W 4 m: S Q P\n");
}

// 0.1 + 0.2 and 0.3 are the same length, whatever their sum in binary.
TEST(Route, TiesAreExact) {
  EXPECT_EQ(routes_of(R"(
place P
place Q
place S
leg P to Q 0.1 m
leg Q to S 0.2 m
leg P to S 0.3 m
tail A at P
tail B at S
wire W A to B
)"),
            "W 300 mm: P S\n");
}

TEST(Route, GoesThroughEachViaInTurn) {
  EXPECT_EQ(routes_of(square + "tail A at P\ntail B at S\nwire W A to B via R\n"), "W 4 m: P R S\n");
  EXPECT_EQ(routes_of(square + "tail A at P\ntail B at S\nwire W A to B via R, Q\n"), "W 8 m: P R P Q S\n");
  EXPECT_EQ(routes_of(square + "tail A at P\ntail B at S\nwire W A to B via RS\n"), "W 4 m: P R S\n");
  EXPECT_EQ(routes_of(square + "tail A at P\ntail B at P\nwire W A to B via Q\n"), "W 4 m: P Q P\n");
}

TEST(Route, CountsPositionsInsideEachPlace) {
  const std::string places = "place P\nplace Q\nleg P at 2 m to Q at 0.5 m 3 m\n";
  EXPECT_EQ(routes_of(places + "tail A at P 0.4 m\ntail B at Q 1.2 m\nwire W A to B\n"), "W 5.3 m: P Q\n");
  EXPECT_EQ(routes_of(places + "tail A at P\ntail B at Q 1.2 m\nwire W A to B\n"), "W 3.7 m: P Q\n");
}

TEST(Route, LegWithoutPositionEndsAtTheDatum) {
  EXPECT_EQ(routes_of("place P\nplace Q\nleg P to Q 3 m\ntail A at P 0.4 m\ntail B at Q\nwire W A to B\n"),
            "W 3.4 m: P Q\n");
}

TEST(Route, PassingThroughAPlaceCountsTheWayAlongIt) {
  EXPECT_EQ(routes_of(R"(
place P
place Q
place S
leg P to Q at 0.5 m 1 m
leg Q at 2.5 m to S 1 m
tail A at P
tail B at S
wire W A to B
)"),
            "W 4 m: P Q S\n");
}

TEST(Route, AddsSlackForEachPassAndPlusOnce) {
  EXPECT_EQ(routes_of("place P\nplace Q\nleg P to Q 3 m slack 0.2 m\ntail A at P\ntail B at P\ntail C at Q\n"
                      "wire W1 A to C\nwire W2 A to B via Q\nwire W3 A to C plus 0.5 m\n"),
            "W1 3.2 m: P Q\nW2 6.4 m: P Q P\nW3 3.7 m: P Q\n");
}

TEST(Route, InOnePlaceIsTheDistanceBetweenPositions) {
  EXPECT_EQ(routes_of("place P\ntail A at P 0.4 m\ntail B at P 1.9 m\nwire W A to B\n"), "W 1.5 m: P\n");
}

TEST(Route, InOnePlaceWithoutPositionsNeedsALength) {
  const std::string said = "both ends of `W` are at P, so its length is not known";
  EXPECT_EQ(complaint_of("place P\ntail A at P\ntail B at P\nwire W A to B\n"), said);
  EXPECT_EQ(complaint_of("place P\ntail A at P 1 m\ntail B at P\nwire W A to B plus 1 m\n"), said);
  EXPECT_EQ(complaint_of("place P\ntail A at P 1 m\ntail B at P 1 m\nwire W A to B\n"), said);
  EXPECT_EQ(complaint_of("place P\ntail A at P\ntail B at P\nwire W A to B 0.2 m\n"), "");
}

TEST(Route, WithoutAWayNeedsALength) {
  EXPECT_THAT(complaint_of("place P\nplace Q\ntail A at P\ntail B at Q\nwire W A to B\n"),
              HasSubstr("no legs lead from P to Q"));
  EXPECT_THAT(complaint_of("place P\ntail A at P\ntail B\nwire W A to B\n"), HasSubstr("`B` has no place"));
  EXPECT_EQ(complaint_of("place P\nplace Q\ntail A at P\ntail B at Q\nwire W A to B 1 m\n"), "");
}

TEST(Route, GivenLengthStandsAndTheLegsAreStillFound) {
  const ReadPlan read =
      read_plan(square + "tail A at P\ntail B at Q\nwire W A to B 16 AWG 9 m\nwire V A to B 16 AWG via S\n");
  const Routes routes = find_routes(read.plan).routes;
  const Route &given = routes.runs[RunId(std::size_t{0})], &found = routes.runs[RunId(std::size_t{1})];
  EXPECT_EQ(given.length, metres(9));
  EXPECT_TRUE(given.given);
  EXPECT_THAT(given.legs, ElementsAre(LegId(std::size_t{0})));
  EXPECT_FALSE(found.given);
  EXPECT_THAT(routes.on_leg[LegId(std::size_t{0})], ElementsAre(RunId(std::size_t{0}), RunId(std::size_t{1})));
}

TEST(Route, GivenLengthWithoutAWayKeepsWhatViaNames) {
  const ReadPlan read = read_plan(
      "place P\nplace Q\nplace R\nplace S\nleg RS R to S 1 m\ntail A at P\ntail B at Q\n"
      "wire W A to B 16 AWG 9 m via RS\n");
  const RouteReading reading = find_routes(read.plan);
  EXPECT_THAT(reading.complaints, IsEmpty());
  EXPECT_EQ(dump(read.plan, reading.routes), "W 9 m: P R S Q\n");
  EXPECT_EQ(reading.routes.on_leg[LegId(std::size_t{0})].size(), 1u);
}

TEST(Route, OfACableIsThatOfItsLongestCore) {
  EXPECT_EQ(
      routes_of("place P\nplace Q\nleg P to Q 3 m\ntail A at P\ntail B at P\ntail C at Q 0.2 m\ntail D at Q 0.9 m\n"
                "cable K A, B to C, D\n"),
      "K 3.9 m: P Q sheathed\n");
}

TEST(Route, OfACableAsksForNoLengthWhileOneCoreHasOne) {
  EXPECT_EQ(routes_of("place P\nplace Q\nleg P to Q 3 m\ntail A at P\ntail B at P\ntail C at P\ntail D at Q\n"
                      "cable K A, B to C, D\n"),
            "K 3 m: P Q sheathed\n");
}

TEST(Route, TakesTheWarmestDeclaredAmbient) {
  EXPECT_EQ(routes_of("place P\nplace Q ambient 50 C\nplace R ambient 40 C\nleg P to Q 1 m\nleg Q to R 1 m\n"
                      "tail A at P\ntail B at R\nwire W A to B\n"),
            "W 2 m: P Q R 50 C\n");
}

TEST(Route, IsSheathedWhereEveryLegAndPlaceIs) {
  const std::string ends = "tail A at P\ntail B at Q\n";
  EXPECT_EQ(routes_of("place P sheathed\nplace Q sheathed\nleg P to Q 1 m conduit 16 mm\n" + ends + "wire W A to B\n"),
            "W 1 m: P Q sheathed\n");
  EXPECT_EQ(routes_of("place P sheathed\nplace Q\nleg P to Q 1 m conduit 16 mm\n" + ends + "wire W A to B\n"),
            "W 1 m: P Q\n");
  EXPECT_EQ(routes_of("place P sheathed\nplace Q sheathed\nleg P to Q 1 m\n" + ends + "wire W A to B\n"),
            "W 1 m: P Q\n");
  EXPECT_EQ(routes_of("place P\nplace Q\nleg P to Q 1 m\n" + ends + "wire W A to B sheathed\n"),
            "W 1 m: P Q sheathed\n");
}

TEST(Route, UnclearPlacesMakeNoFurtherComplaint) {
  EXPECT_EQ(complaint_of("place P\nplace Q\nleg P to QQ 1 m\ntail A at P\ntail B at Q\nwire W A to B\n"), "");
}

// A ladder of equal ways on which every rung is a tie, and wires between all its ends.
TEST(Route, IsFoundInGoodTimeOnALargePlanOfTies) {
  constexpr int rungs = 1000;
  std::string text = "default wire 16 AWG\n";
  for (int n = 0; n < rungs; ++n) {
    const std::string at = std::to_string(n);
    text += "place P" + at + "\nplace Q" + at + "\ntail A" + at + " at P" + at + "\ntail B" + at + " at Q" + at + "\n";
    text += "leg P" + at + " to Q" + at + " 1 m\n";
    if (n == 0) continue;
    const std::string before = std::to_string(n - 1);
    text += "leg P" + before + " to P" + at + " 1 m\nleg Q" + before + " to Q" + at + " 1 m\n";
    text += "wire W" + at + " A" + before + " to B" + at + "\n";
  }
  const ReadPlan read = read_plan(text + "wire W A0 to B" + std::to_string(rungs - 1) + "\n");
  const RouteReading reading = find_routes(read.plan);
  EXPECT_THAT(reading.complaints, IsEmpty());
  EXPECT_EQ(reading.routes.runs[RunId(read.plan.runs.size() - 1)].length, metres(rungs));
}

}  // namespace
}  // namespace loomleaf
