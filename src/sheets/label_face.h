// What one label says, laid out on its printed face.
#pragma once

#include <string>
#include <vector>

#include "loomleaf/sheets/display_list.h"
#include "loomleaf/sheets/label_sheets.h"

namespace loomleaf {

// The part of a face that text may fill, in mm as printed.
struct FaceRoom {
  double width_mm = 0.0, height_mm = 0.0;
  double least_cap_mm = 2.0;
  double girth_mm = 0.0;  // all round the wire; the face is part of it. 0: the label is flat
  int sides = 1;          // 2: as much room again on the back

  double most_cap_mm() const { return 1.75 * least_cap_mm; }  // larger letters make no label better to read
};

struct LabelFace {
  std::vector<std::vector<TextRun>> sides;  // from the room's upper left; all empty where not even the ID goes on
  std::vector<std::string> left_out;        // in words
  std::size_t id_fits = 0;                  // where it does not go on: how many of the ID's characters would
  bool fits() const { return !sides.empty(); }
};

// The ID large, bold and underlined; the rest beside or below it in as many lines as make the letters largest.
LabelFace lay_out_flat(const LabelText& text, const FaceRoom& room, const TextMeasure& type);

// The ID again at the head of each line, a third of a turn or less apart as far as there is room for it, so that it
// reads from any side; behind it one part a line.
LabelFace lay_out_round(const LabelText& text, const FaceRoom& room, const TextMeasure& type);

// Room for a line with an ID, the rule under it and lighter text behind it, in heights of a capital.
struct IdMeasures {
  double width, height, ascent;
};
IdMeasures measure_id(const std::string& id, const TextMeasure& type);

// How many characters of an ID, from the first, go on a face at its least height.
std::size_t characters_that_fit(const std::string& id, const FaceRoom& room, const TextMeasure& type);

inline constexpr double kIdTimes[] = {1.5, 1.25,
                                      1.0};  // the ID's height, in heights of the other letters: the best that goes
inline constexpr double kIdGap = 1.2;        // between the ID and what stands beside it, in heights

}  // namespace loomleaf
