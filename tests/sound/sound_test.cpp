// Installations that people build every day and that are sound: nothing is to be found in them.
#include <gmock/gmock.h>

#include "loomleaf/command/examine.h"

namespace loomleaf::test {
namespace {

using testing::IsEmpty;

// "SEVERITY rule: message" of all that is found.
std::vector<std::string> found_in(const std::string& text) {
  const SourceText source("plan.loom", text);
  const Examination seen = examine(source, TemplateFolders{{LOOMLEAF_ROOT "/templates"}});
  for (const TemplateError& error : seen.template_errors) ADD_FAILURE() << error.file << ": " << error.message;
  for (const Complaint& complaint : seen.complaints) ADD_FAILURE() << to_text(complaint, source);
  std::vector<std::string> found;
  for (const Finding& finding : seen.findings)
    found.push_back(std::string(name_of(finding.severity)) + " " + finding.rule + ": " + finding.message);
  return found;
}

TEST(Sound, TwoBatteriesSideBySideWithShortLinks) {
  EXPECT_THAT(found_in(R"(
system 12 V rules rv
source A "Battery" 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 2 kA
source B "Battery" 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 2 kA
wire P1 A+ to B+ 2 AWG red 250 mm
wire P2 A- to B- 2 AWG black 250 mm
fuse F0 "Main" 80 A class-t
load INV "Inverter" 600 W
wire W1 A+ to F0 2 AWG red 200 mm
wire W2 F0 to INV+ 2 AWG red 1.2 m
wire W3 INV- to B- 2 AWG black 1.2 m
)"),
              IsEmpty());
}

TEST(Sound, TwoBatteriesInARow) {
  EXPECT_THAT(found_in(R"(
system 24 V rules rv
source A "Battery" 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 2 kA
source B "Battery" 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 2 kA
wire P1 A- to B+ 6 AWG black 250 mm
fuse F0 "Main" 50 A class-t
load WIN "Winch light" 240 W
wire W1 A+ to F0 6 AWG red 200 mm
wire W2 F0 to WIN+ 6 AWG red 2 m
wire W3 WIN- to B- 6 AWG black 2 m
)"),
              IsEmpty());
}

TEST(Sound, BladeFuseBlockBehindAClassTFuse) {
  EXPECT_THAT(found_in(R"(
system 12 V rules rv
source BAT "Battery" 12.8 V low 12.0 V high 14.4 V 200 Ah max 100 A short-circuit 6 kA
fuse F0 "Main" 60 A class-t
bus PB "Fuse block" 100 A 12 ways
bus NB "Negative bus" 100 A 12 ways
wire W1 BAT+ to F0 6 AWG red 200 mm insulation 105 C
wire W2 F0 to PB 6 AWG red 0.6 m insulation 105 C
wire W3 NB to BAT- 6 AWG black 0.6 m insulation 105 C
fuse F1 "Lamps" 5 A blade on PB
fuse F2 "Fridge" 15 A blade on PB
fuse F3 "Spare" 10 A blade on PB
load LMP "Lamp" 12 W
load FRI "Fridge" 60 W 8 h/day
cable C1 F1, NB to LMP 16 AWG 4 m cores red, black
cable C2 F2, NB to FRI 12 AWG 3 m cores red, black
)"),
              IsEmpty());
}

TEST(Sound, BatteryToBatteryCharger) {
  EXPECT_THAT(found_in(R"(
system 12 V rules rv
source VAN "Starter battery" 12.6 V low 12.0 V high 14.4 V 80 Ah max 100 A short-circuit 3 kA
source BAT "House battery" 12.8 V low 12.2 V high 14.4 V 100 Ah max 100 A short-circuit 2.5 kA
converter CHG "Charger" in 12 V out 14.4 V 30 A efficiency 90 %
fuse F1 "Charger, van side" 60 A class-t
fuse F2 "Charger, house side" 40 A class-t
bus NB "Negative bus" 150 A 8 ways
wire W1 VAN+ to F1 4 AWG red 200 mm
wire W2 F1 to CHG.in+ 4 AWG red 4 m
wire W3 CHG.in- to NB 4 AWG black 0.5 m
wire W4 CHG.out+ to F2 6 AWG red 0.6 m
wire W5 F2 to BAT+ 6 AWG red 200 mm
wire W6 NB to BAT- 6 AWG black 0.5 m
wire W7 VAN- to NB 4 AWG black 4 m
)"),
              IsEmpty());
}

TEST(Sound, SplitChargeRelay) {
  EXPECT_THAT(found_in(R"(
system 12 V rules rv
source VAN "Starter battery" 12.6 V low 12.0 V high 14.4 V 80 Ah max 100 A short-circuit 3 kA
source BAT "House battery" 12.6 V low 12.0 V high 14.4 V 100 Ah max 100 A short-circuit 2.5 kA
source ALT "Alternator" alternator 14.2 V limit 70 A
relay RLY "Split charge" contact 100 A coil 3 W
fuse F1 "Van side" 60 A class-t
fuse F2 "House side" 60 A class-t
fuse F3 "Coil" 1 A blade on ALT+
fuse FA "Alternator" 90 A class-t
bus NB "Negative bus" 200 A 10 ways
wire A1 ALT+ to FA 2 AWG red 0.3 m
wire A2 FA to VAN+ 2 AWG red 0.4 m
wire A3 ALT- to NB 2 AWG black 0.7 m
wire W1 VAN+ to F1 2 AWG red 200 mm
wire W2 F1 to RLY.30 2 AWG red 2 m
wire W3 RLY.87 to F2 2 AWG red 2 m
wire W4 F2 to BAT+ 2 AWG red 200 mm
wire W5 BAT- to NB 2 AWG black 2 m
wire W6 VAN- to NB 2/0 AWG black 0.5 m
wire W7 F3 to RLY.86 16 AWG red 1 m
wire W8 RLY.85 to NB 16 AWG black 1 m
)"),
              IsEmpty());
}

// What may come over the converter's input and what over its output returns over its two negatives, one way or the
// other.
TEST(Sound, ConverterWithBothNegativesOnTheBus) {
  EXPECT_THAT(found_in(R"(
system 12 V rules rv
source BAT "Battery" 12.8 V low 12.0 V high 14.4 V 200 Ah max 100 A short-circuit 3 kA
fuse F0 "Main" 60 A class-t
bus PB "Positive bus" 100 A 6 ways
bus NB "Negative bus" 100 A 8 ways
wire M1 BAT+ to F0 6 AWG red 200 mm insulation 105 C
wire M2 F0 to PB 6 AWG red 0.6 m insulation 105 C
wire M3 NB to BAT- 6 AWG black 0.6 m insulation 105 C
converter STB "Steady supply" in 12 V out 12 V 15 A efficiency 90 %
fuse F1 "Steady supply" 20 A blade on PB
wire W1 F1 to STB.in+ 12 AWG red 1 m
wire W2 STB.in- to NB 12 AWG black 1 m
wire W3 STB.out- to NB 12 AWG black 1 m
fuse F2 "Instruments" 15 A blade
load INS "Instruments" 60 W
wire W4 STB.out+ to F2 12 AWG red 200 mm
wire W5 F2 to INS+ 12 AWG red 2 m
wire W6 INS- to NB 12 AWG black 2 m
)"),
              IsEmpty());
}

TEST(Sound, EmergencyLinkBetweenTwoBatteries) {
  EXPECT_THAT(found_in(R"(
system 12 V rules rv
source H "House battery" 12.8 V low 12.0 V high 14.4 V 100 Ah max 100 A short-circuit 2 kA
source S "Starter battery" 12.8 V low 12.0 V high 14.4 V 100 Ah max 100 A short-circuit 2 kA
fuse F1 "House side" 80 A class-t
fuse F2 "Starter side" 80 A class-t
switch JOIN "Emergency link" 150 A 32 V
wire W1 H+ to F1 2 AWG red 200 mm
wire W2 F1 to JOIN.in 2 AWG red 1 m
wire W3 JOIN.out to F2 2 AWG red 1 m
wire W4 F2 to S+ 2 AWG red 200 mm
wire W7 S- to H- 2 AWG black 1.5 m
)"),
              IsEmpty());
}

TEST(Sound, TwoWayLamp) {
  EXPECT_THAT(found_in(R"(
system 12 V rules rv
source BAT "Battery" 12.8 V low 12.0 V 20 Ah max 20 A short-circuit 500 A
fuse F1 "Stair lamp" 5 A blade
switch S1, S2 "Stair switch" 6 A 32 V 2 ways
load LMP "Stair lamp" 6 W
wire W1 BAT+ to F1 16 AWG red 150 mm
wire W2 F1 to S1.in 16 AWG red 0.6 m
wire W3 S1.out1 to S2.out1 16 AWG red 3 m
wire W4 S1.out2 to S2.out2 16 AWG brown 3 m
wire W5 S2.in to LMP+ 16 AWG red 1 m
wire W6 LMP- to BAT- 16 AWG black 4 m
)"),
              IsEmpty());
}

TEST(Sound, ReversingRocker) {
  EXPECT_THAT(found_in(R"(
system 12 V rules rv
source BAT "Battery" 12.8 V low 12.0 V 60 Ah max 40 A short-circuit 800 A
fuse F1 "Blind motor" 10 A blade
switch S1 "Blind rocker" 10 A 32 V 2 ways 2 poles
load MOT "Blind motor" 36 W motor surge 3x 0.1 s
splice SA, SB "Motor joint" 3 ways 20 A takes 0.5..4 mm2
wire W1 BAT+ to F1 14 AWG red 200 mm
wire W2 F1 to S1.1.in 14 AWG red 1 m
wire W3 BAT- to S1.2.in 14 AWG black 1 m
wire X1 S1.1.out1 to SA 14 AWG red 100 mm
wire X2 S1.2.out2 to SA 14 AWG red 100 mm
wire X3 S1.1.out2 to SB 14 AWG red 100 mm
wire X4 S1.2.out1 to SB 14 AWG red 100 mm
wire M1 SA to MOT+ 14 AWG red 1 m
wire M2 SB to MOT- 14 AWG red 1 m
)"),
              IsEmpty());
}

TEST(Sound, ChassisBond) {
  EXPECT_THAT(found_in(R"(
system 12 V rules rv
source BAT "Battery" 12.8 V low 12.0 V 60 Ah max 40 A short-circuit 900 A
fuse F1 "Lamp" 10 A blade
bus NB "Negative bus" 60 A 6 ways
chassis BODY "Body"
load LMP "Lamp" 24 W
wire W1 BAT+ to F1 14 AWG red 200 mm
wire W2 F1 to LMP+ 14 AWG red 2 m
wire W3 LMP- to NB 14 AWG black 2 m
wire W4 NB to BAT- 14 AWG black 0.3 m
wire B1 NB to BODY 8 AWG green/yellow 0.5 m bond
)"),
              IsEmpty());
}

// The charger is not isolated, and the body joins the two batteries' -: bar, charger and body make a ring.
TEST(Sound, BatteryToBatteryChargerOnTheBodyOfAVan) {
  EXPECT_THAT(found_in(R"(
system 12 V rules rv drop 5 %
default wire insulation 105 C
source SB "Starter battery" 12.6 V low 12.4 V high 14.6 V 90 Ah max 80 A short-circuit 1.8 kA
source LI "House battery" 12.8 V low 12.4 V high 14.4 V 200 Ah max 200 A short-circuit 3 kA
chassis CH "Body"
wire W0 SB- to CH 2 AWG black 0.4 m
fuse FB1 "Charger, engine end" 60 A class-t
fuse FB2 "Charger, house end" 50 A class-t
converter BB "Charger" in 12 V out 14.4 V 30 A efficiency 88 %
wire W1 SB+ to FB1 4 AWG red 300 mm
wire W2 FB1 to BB.in+ 4 AWG red 4 m
wire W3 BB.in- to CH 6 AWG black 0.5 m
fuse F0 "Main" 200 A class-t
bus PB "Positive bus" 300 A 6 ways
bus NB "Negative bus" 300 A 8 ways
wire W4 LI+ to F0 4/0 AWG red 250 mm
wire W5 F0 to PB 4/0 AWG red 0.3 m
wire W6 LI- to NB 4/0 AWG black 0.3 m
wire W7 NB to CH 4/0 AWG black 0.6 m
wire W8 BB.out+ to FB2 6 AWG red 0.6 m
wire W9 FB2 to PB 6 AWG red 0.3 m
wire W10 BB.out- to NB 6 AWG black 0.6 m
fuse FV "Inverter" 150 A class-t on PB
load INV "Inverter" 1 kW efficiency 90 % 0.5 h/day min 10.5 V
wire W11 FV to INV+ 1/0 AWG red 0.8 m
wire W12 INV- to NB 1/0 AWG black 0.8 m
fuse F1 "Lamps" 5 A blade on PB
load LMP "Lamps" 20 W
wire W13 F1 to LMP+ 14 AWG red 2 m
wire W14 LMP- to NB 14 AWG black 2 m
)"),
              IsEmpty());
}

TEST(Sound, TrailerPlugWithUnusedPoles) {
  EXPECT_THAT(found_in(R"(
system 12 V rules rv
source BAT "Battery" 12.8 V low 12.0 V 60 Ah max 40 A short-circuit 900 A
fuse F1 "Trailer" 10 A blade
connector X1 "Trailer plug" 13 poles pole 9 20 A, pole 13 20 A takes 1..2.5 mm2
load LMP "Trailer lamp" 12 W
wire W1 BAT+ to F1 14 AWG red 200 mm
cable C1 F1, BAT- to X1.in9, X1.in13 14 AWG 3 m cores red, black
cable C2 X1.out9, X1.out13 to LMP 14 AWG 4 m cores red, black
)"),
              IsEmpty());
}

TEST(Sound, StarterCable) {
  EXPECT_THAT(found_in(R"(
system 12 V rules marine
source BAT "Starter battery" 12.6 V low 12.0 V 100 Ah max 500 A short-circuit 3 kA
load ST "Starter" 1.8 kW starter
switch S0 "Battery switch" 600 A 48 V
wire W1 BAT+ to S0 2/0 AWG red 0.6 m
wire W2 S0 to ST+ 2/0 AWG red 1.2 m
wire W3 ST- to BAT- 2/0 AWG black 1.5 m
)"),
              IsEmpty());
}

TEST(Sound, SpareCoresOnTails) {
  EXPECT_THAT(found_in(R"(
system 12 V rules rv
source BAT "Battery" 12.8 V low 12.0 V 60 Ah max 40 A short-circuit 900 A
fuse F1 "Mast lamp" 5 A blade
load LMP "Mast lamp" 6 W
tail T1, T2 "Spare core, shed end"
tail T3, T4 "Spare core, mast end"
wire W1 BAT+ to F1 16 AWG red 200 mm
cable C1 F1, BAT-, T1, T2 to LMP+, LMP-, T3, T4 16 AWG 6 m cores red, black, blue, white
)"),
              IsEmpty());
}

TEST(Sound, ShuntWithAMonitor) {
  EXPECT_THAT(found_in(R"(
system 12 V rules rv
source BAT "Battery" 12.8 V low 12.0 V 100 Ah max 100 A short-circuit 2 kA
fuse F0 "Main" 50 A class-t
bus PB "Positive bus" 100 A 6 ways
fuse F1 "Monitor" 1 A blade on PB
bus NB "Negative bus" 100 A 6 ways
shunt SH "Shunt" 100 A 0.5 mohm also sense
load MON "Monitor" 0.5 W 24 h/day also data
load FRI "Fridge" 60 W
wire W1 BAT+ to F0 6 AWG red 200 mm
wire W9 F0 to PB 6 AWG red 0.3 m
wire W2 PB to FRI+ 6 AWG red 2 m
wire W3 FRI- to NB 6 AWG black 2 m
wire W4 NB to SH 6 AWG black 0.3 m
wire W5 SH to BAT- 6 AWG black 0.3 m
wire W6 F1 to MON+ 18 AWG red 2 m
wire W7 MON- to NB 18 AWG black 2 m
wire W8 SH.sense to MON.data 22 AWG white 2 m signal
)"),
              IsEmpty());
}

}  // namespace
}  // namespace loomleaf::test
