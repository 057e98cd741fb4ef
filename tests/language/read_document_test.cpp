#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "loomleaf/language/dump.h"
#include "loomleaf/language/statement.h"

namespace loomleaf {
namespace {

std::string complaints_in(const Document& document) {
  std::string text;
  for (const Complaint& complaint : document.complaints) text += complaint.message + '\n';
  return text;
}

Document read(const std::string& text) { return read_document(SourceText("plan.loom", text)); }

struct Row {
  const char* text;
  const char* statement;
};

class Statements : public testing::TestWithParam<Row> {};

TEST_P(Statements, ReadAs) {
  const Document document = read(GetParam().text);
  EXPECT_EQ(complaints_in(document), "");
  ASSERT_EQ(document.statements.size(), 1u);
  EXPECT_EQ(to_text(document.statements[0]), GetParam().statement);
  EXPECT_FALSE(document.statements[0].troubled);
}

INSTANTIATE_TEST_SUITE_P(
    NoItems, Statements,
    testing::Values(Row{"place ROOF \"Roof\" cover \"Lining\" removable ambient 50 C sheathed",
                        "place ROOF \"Roof\" cover=\"Lining\" removable ambient=50 C sheathed"},
                    Row{"place ROOF ambient 104 F", "place ROOF ambient=40 C"},
                    Row{"leg A to B 1.6 m", "leg A to B length=1.6 m"},
                    Row{"leg L1 \"Wall\" A at 0.3 m to B at 20 cm 6 ft 4 in conduit 16 mm slack 0 m",
                        "leg L1 A 300 mm to B 200 mm \"Wall\" length=1.93 m conduit=16 mm slack=0 mm"},
                    Row{"leg L1 A to B 5 feet bundle slack 0.1 m", "leg L1 A to B length=1.52 m bundle slack=100 mm"},
                    Row{"place ROOF\n  # a remark\n  ambient 40 C", "place ROOF ambient=40 C"},
                    Row{"leg A to B 6\u2032 4\u2033", "leg A to B length=1.93 m"}));

INSTANTIATE_TEST_SUITE_P(
    Items, Statements,
    testing::Values(
        Row{"source BAT 12.8 V low 12.0 V 100 Ah short-circuit 2.5 kA at LOCKER",
            "source BAT voltage=12.8 V low_voltage=12 V charge=100 Ah short_circuit=2.5 kA at=LOCKER"},
        Row{"source SOL solar 14 volts limit 10 amps yield 0.5 kWh/day",
            "source SOL kind=solar voltage=14 V limit_current=10 A yield=500 Wh"},
        Row{"source BAT battery 12 V DC max 80A internal 5 m\u03A9",
            "source BAT kind=battery voltage=12 V max_current=80 A internal_resistance=5 mohm"},
        Row{"FUSE F1 5A Blade ON BAT+", "fuse F1 rating=5 A family=blade on=BAT+"},
        Row{"fuse F1 auto class-t breaks 20 kA 125 V", "fuse F1 rating=auto family=class-t breaks=20 kA voltage=125 V"},
        Row{"breaker CB1 10 A later part \"x\" note \"y\"", "breaker CB1 rating=10 A later part=\"x\" note=\"y\""},
        Row{"switch S1 20 A 3 ways 2 poles drawn way 2 32 V",
            "switch S1 rating=20 A ways=3 poles=2 drawn=way 2 voltage=32 V"},
        Row{"switch S1 drawn open", "switch S1 drawn=open"},
        Row{"switch S1 2 ways both 200 A", "switch S1 ways=2 both rating=200 A"},
        Row{"shunt SH1 500 A 0.1 mohm also sense, 61", "shunt SH1 rating=500 A resistance=0.1 mohm also=sense,61"},
        Row{"relay R1 contact 30 A coil 90 ohm", "relay R1 contact_rating=30 A coil_resistance=90 ohm"},
        Row{"relay R1 coil 2 W", "relay R1 coil_power=2 W"},
        Row{"converter CV1 in 24 V out 12 V 20 A efficiency 90 % isolated",
            "converter CV1 in_voltage=24 V out_voltage=12 V rating=20 A efficiency=0.9 isolated"},
        Row{"splice SP1, SN1 3 ways takes 0.2..4 mm2", "splice SP1,SN1 ways=3 takes=0.2 mm2..4 mm2"},
        Row{"splice SP1 takes 12..22 AWG", "splice SP1 takes=22 AWG..12 AWG"},
        Row{"splice SP1 takes 0.5 mm2..10 AWG", "splice SP1 takes=0.5 mm2..10 AWG"},
        Row{"connector X1 13 poles pole 9 20 A, pole 13 20 A",
            "connector X1 poles=13 pole_rating=9:20 A pole_rating=13:20 A"},
        Row{"load LA1..LA3 3 W 4 h/day at ROOF 0.3 m every 0.8 m",
            "load LA1,LA2,LA3 power=3 W use_hours=4 at=ROOF 300 mm every 800 mm"},
        Row{"load LA08..LA10 250 mA use 50% drop 3%", "load LA08,LA09,LA10 current=0.25 A use_share=0.5 drop=0.03"},
        Row{"load P1 motor 8 A min 10 V max 15 V surge 6x 0.5 s continuous",
            "load P1 kind=motor current=8 A min_voltage=10 V max_voltage=15 V surge=6x 500 ms continuous"},
        Row{"load P1 60 W surge 6 times 500 ms tails 150 mm 18 AWG",
            "load P1 power=60 W surge=6x 500 ms tails=18 AWG 150 mm"},
        Row{"load V1 40 W cut-out 45 x 22 mm", "load V1 power=40 W cut_out=45 mm x 22 mm"},
        Row{"load V1 40 W cutout 45mmx22mm", "load V1 power=40 W cut_out=45 mm x 22 mm"},
        Row{"load motor motor 60 W 3 hours a day", "load motor kind=motor power=60 W use_hours=3"},
        Row{"chassis HULL \"Hull\"", "chassis HULL \"Hull\""}, Row{"tail T1 later", "tail T1 later"},
        Row{"load B\u00FC\u0441 3 W", "load B\u00FC\u0441 power=3 W"}));

INSTANTIATE_TEST_SUITE_P(
    Conductors, Statements,
    testing::Values(
        Row{"wire W1 BAT+ to F0 6 AWG red 150 mm", "wire W1 BAT+ to F0 size=6 AWG colour=red length=150 mm"},
        Row{"wire W1 BAT\u2212 to NB 1/0 AWG color red/white plus 2 ft",
            "wire W1 BAT- to NB size=1/0 AWG colour=red/white plus=609.6 mm"},
        Row{"wire W1 A to B 000 AWG gray", "wire W1 A to B size=3/0 AWG colour=grey"},
        Row{"wire W1 A to B auto via ROOF, L1 bond", "wire W1 A to B size=auto via=ROOF,L1 bond"},
        Row{"wire W5..W7 A to B.in+ to C.1.out2 to D.87a 2.5 mm\u00B2",
            "wire W5,W6,W7 A to B.in+ to C.1.out2 to D.87a size=2.5 mm2"},
        Row{"wire W1 \"sense\" A to B signal insulation 105 C sheathed later",
            "wire W1 A to B \"sense\" signal insulation=105 C sheathed later"},
        Row{"wire W1 A to B 14 SAE red", "wire W1 A to B size=14 SAE colour=red"},
        Row{"cable C1 A, B to C, D 2x1/0 sae", "cable C1 A,B to C,D size=1/0 SAE core_count=2"},
        Row{"wire W1 A to B 2.5 mm2 insulation Thin-Wall red",
            "wire W1 A to B size=2.5 mm2 insulation_kind=thin-wall colour=red"},
        Row{"wire W1 insulation thin-wall A to B 105 mm", "wire W1 A to B insulation_kind=thin-wall length=105 mm"},
        Row{"wire W1 insulation H07V-K 70 C A to B", "wire W1 A to B insulation_kind=h07v-k insulation=70 C"},
        Row{"wire W1 insulation 105 C GXL A to B", "wire W1 A to B insulation=105 C insulation_kind=gxl"},
        Row{"wire W1 insulation 105 C A to B", "wire W1 A to B insulation=105 C"},
        Row{"cable C1 insulation 75 C A, B to C, D", "cable C1 A,B to C,D insulation=75 C"},
        Row{"wire W1 A to B insulation 221 F red/white", "wire W1 A to B insulation=105 C colour=red/white"},
        Row{"cable C1 F1, NB to D1 16 AWG", "cable C1 F1,NB to D1 size=16 AWG"},
        Row{"cable C1 LA1..LA3+ to X1 3x0.75 mm2 cores red, black, green/yellow",
            "cable C1 LA1+,LA2+,LA3+ to X1 size=0.75 mm2 core_count=3 cores=red,black,green/yellow"},
        Row{"cable C1 A to B 2 x 18 AWG", "cable C1 A to B size=18 AWG core_count=2"},
        Row{"wire W1\n\tA to B\n\t18 AWG # thin", "wire W1 A to B size=18 AWG"}));

TEST(ReadDocument, KeepsSeveralSystemVoltages) {
  const Document document = read("system 24 V, 12 V conductor 50 C rules RV drop 3 %\nbus NB");
  EXPECT_EQ(complaints_in(document), "");
  EXPECT_EQ(to_text(document.statements[0]), "system voltages=24 V,12 V conductor_temperature=50 C rules=rv drop=0.03");
}

TEST(ReadDocument, ReadsTheHeading) {
  const Document document = read("plan \"Hut\" language 1 revision B.2 date 2024-02-29 by Nell\nbus NB");
  EXPECT_EQ(complaints_in(document), "");
  EXPECT_EQ(to_text(document.statements[0]),
            "plan \"Hut\" language=1 revision=\"B.2\" date=\"2024-02-29\" by=\"Nell\"");
}

TEST(ReadDocument, ReadsWhatIsAccepted) {
  const Document document = read("accept Voltage-Drop on LA1..LA2, C1.red, BAT+ \"measured\"\nbus NB");
  EXPECT_EQ(complaints_in(document), "");
  EXPECT_EQ(to_text(document.statements[0]), "accept voltage-drop of LA1,LA2,C1.red,BAT+ \"measured\"");
}

TEST(ReadDocument, KeepsFiguresExact) {
  const Document document = read("tail T1 hole 150 mm\nleg A to B 6 ft 4 in");
  EXPECT_EQ(std::get<Length>(document.statements[0].properties[0].value), metres(0.15));
  EXPECT_EQ(std::get<Length>(document.statements[1].properties[0].value), feet(6) + inches(4));
}

TEST(ReadDocument, SpansThePropertyAsWritten) {
  const SourceText source("plan.loom", "load LA1 3 W at ROOF 0.3 m");
  const Document document = read_document(source);
  EXPECT_EQ(source.text(document.statements[0].properties[1].span), "at ROOF 0.3 m");
  EXPECT_EQ(source.text(document.statements[0].span), source.text());
}

TEST(ReadDocument, GivesNamesOfARangeTheRangesSpan) {
  const SourceText source("plan.loom", "load LA1..LA3 3 W");
  const Document document = read_document(source);
  ASSERT_EQ(document.statements[0].ids.size(), 3u);
  for (const Name& name : document.statements[0].ids) EXPECT_EQ(source.text(name.span), "LA1..LA3");
}

TEST(ReadDocument, GoesOnAfterAComplaint) {
  const Document document = read("fuse F1 5\nswich S1 3 A\nload LA1 3 W\n");
  EXPECT_EQ(document.complaints.size(), 2u);
  ASSERT_EQ(document.statements.size(), 3u);
  EXPECT_TRUE(document.statements[0].troubled);
  EXPECT_EQ(document.statements[1].keyword, Keyword::switch_);
  EXPECT_FALSE(document.statements[2].troubled);
}

TEST(ReadDocument, KeepsTheWordsOfWhatItCannotUnderstand) {
  const Document document = read("umbrella U1 3 A\n");
  EXPECT_TRUE(document.statements.empty());
  EXPECT_NE(std::ranges::find(document.lost_words, "U1"), document.lost_words.end());
}

class Refused : public testing::TestWithParam<const char*> {};

TEST_P(Refused, IsBeyondWhatAPlanMayHold) {
  const Document document = read(GetParam());
  ASSERT_EQ(document.complaints.size(), 1u);
  EXPECT_TRUE(document.complaints[0].refuses);
}

INSTANTIATE_TEST_SUITE_P(Plans, Refused,
                         testing::Values("source B 60.1 V", "source B 58 V high 61 V", "system 110 V",
                                         "converter CV1 out 80 V 5 A", "load L1 40 W 230 V AC", "source B 48 V AC",
                                         "fuse F1 10 A mains", "load L1 40 W 50 Hz", "source B 0.1 kV"));

TEST(ReadDocument, TakesSixtyVolts) { EXPECT_EQ(complaints_in(read("source B 48 V high 60 V")), ""); }

TEST(ReadDocument, TakesADeviceRatedForMore) { EXPECT_EQ(complaints_in(read("fuse F1 10 A 125 V")), ""); }

TEST(ReadDocument, StopsAfterAThousandComplaints) {
  std::string text;
  for (int k = 0; k < 5'000; ++k) text += "umbrella\n";
  const Document document = read(text);
  EXPECT_LE(document.complaints.size(), 1'001u);
  EXPECT_EQ(document.complaints.back().message, "more than 1000 complaints: reading stops here");
}

TEST(ReadDocument, BoundsTheTextItReads) {
  const Document document = read(std::string((16u << 20) + 1, '\n'));
  ASSERT_EQ(document.complaints.size(), 1u);
  EXPECT_EQ(document.complaints[0].message, "a plan has at most 16 MB of text");
}

TEST(ReadDocument, TakesCarriageReturnsAndAByteOrderMark) {
  const Document document = read(
      "\xEF\xBB\xBF"
      "bus NB 100 A\r\n  at WALL\r\nbus PB\r\n");
  EXPECT_EQ(complaints_in(document), "");
  EXPECT_EQ(to_text(document), "bus NB rating=100 A at=WALL\nbus PB\n");
}

TEST(ReadDocument, ReadsTensOfThousandsOfWires) {
  std::string text;
  for (int k = 0; k < 20'000; ++k) text += "wire W" + std::to_string(k) + " BAT+ to F0 6 AWG red 150 mm\n";
  const Document document = read(text);
  EXPECT_EQ(document.statements.size(), 20'000u);
  EXPECT_TRUE(document.complaints.empty());
}

}  // namespace
}  // namespace loomleaf
