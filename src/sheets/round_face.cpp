// Labels that go round a wire.
#include <algorithm>
#include <cmath>

#include "label_face.h"

namespace loomleaf {
namespace {

constexpr double kTurnBetweenIds = 1.0 / 3.0;  // so that one of them always faces the eye
constexpr double kTurnSeen = 0.25;             // as much of the round as a capital may take up: more bends out of sight
constexpr std::size_t kMostLines = 4;          // on one side
constexpr double kWorthMoreLines = 1.12;       // so much larger must letters become
constexpr const char* kBetween = "  ";

struct Setting {
  std::size_t lines = 0;  // on each side
  double cap_mm = 0.0, id_times = 1.0;
};

class RoundTypesetter {
 public:
  RoundTypesetter(const LabelText& text, const FaceRoom& room, const TextMeasure& type)
      : text_(text), room_(room), type_(type), id_(measure_id(text.id, type)) {
    for (const LabelText::Part& part : text.parts) widths_.push_back(type.width(part.text, {1.0, false}));
    between_ = type.width(kBetween, {1.0, false});
  }

  // With the first `parts` of the parts. Of numbers of lines that are much alike the least; none has fewer than go on
  // and are wanted round the wire.
  Setting best(std::size_t parts, double id_times) const {
    Setting best;
    const double turn = room_.girth_mm > 0.0 ? room_.height_mm / room_.girth_mm : 0.0;
    const auto wanted = static_cast<std::size_t>(std::ceil(turn / kTurnBetweenIds));
    const std::size_t least = std::min(std::max<std::size_t>(1, wanted), lines_with_room(1.0));
    const std::size_t most = std::min(kMostLines, lines_with_room(id_times));
    for (std::size_t lines = std::max<std::size_t>(1, least); lines <= most; ++lines) {
      const double cap = largest_cap(parts, lines, id_times);
      if (cap > best.cap_mm * kWorthMoreLines) best = {lines, cap, id_times};
    }
    return best;
  }

  std::vector<std::vector<TextRun>> set(std::size_t parts, const Setting& setting) const {
    const auto sides = static_cast<std::size_t>(room_.sides);
    std::vector<std::vector<TextRun>> runs(sides);
    const double cap = setting.cap_mm, id_cap = cap * setting.id_times;
    const double step = room_.height_mm / static_cast<double>(setting.lines);
    for (std::size_t slot = 0; slot < setting.lines * sides; ++slot) {
      const double middle = (static_cast<double>(slot / sides) + 0.5) * step;
      const double baseline = middle + id_cap * (id_.ascent - id_.height / 2.0);
      auto& side = runs[slot % sides];
      side.push_back({{0.0, baseline}, text_.id, {id_cap, true}, TextRun::Anchor::start, {}, 0.0, true});
      const std::string said = said_in(slot, parts, setting.lines * sides);
      if (said.empty()) continue;
      const double x = id_cap * id_.width + kIdGap * cap;
      side.push_back({{x, baseline}, said, {cap, false}, TextRun::Anchor::start, {}, 0.0, false});
    }
    return runs;
  }

 private:
  std::size_t lines_with_room(double id_times) const {
    return static_cast<std::size_t>(
        std::max(0.0, room_.height_mm / (room_.least_cap_mm * id_times * id_.height) + 1e-9));
  }

  // Parts go to the lines in turn, so that the weightiest stand first on either side.
  std::string said_in(std::size_t slot, std::size_t parts, std::size_t slots) const {
    std::string said;
    for (std::size_t part = slot; part < parts; part += slots)
      said += (said.empty() ? "" : kBetween) + text_.parts[part].text;
    return said;
  }

  double largest_cap(std::size_t parts, std::size_t lines, double id_times) const {
    const std::size_t slots = lines * static_cast<std::size_t>(room_.sides);
    double across = id_times * id_.width;
    for (std::size_t slot = 0; slot < std::min(slots, parts); ++slot) {
      double width = id_times * id_.width + kIdGap - between_;
      for (std::size_t part = slot; part < parts; part += slots) width += between_ + widths_[part];
      across = std::max(across, width);
    }
    const double by_height = room_.height_mm / (static_cast<double>(lines) * id_times * id_.height);
    const double by_turn = std::max(room_.least_cap_mm, kTurnSeen * room_.girth_mm / id_times);
    return std::min({room_.width_mm / across, by_height, by_turn, room_.most_cap_mm()});
  }

  const LabelText& text_;
  const FaceRoom& room_;
  const TextMeasure& type_;
  IdMeasures id_;
  std::vector<double> widths_;
  double between_ = 0.0;
};

}  // namespace

LabelFace lay_out_round(const LabelText& text, const FaceRoom& room, const TextMeasure& type) {
  LabelFace face;
  const RoundTypesetter setter(text, room, type);
  for (std::size_t parts = text.parts.size();; --parts) {
    for (const double times : kIdTimes)
      if (const Setting setting = setter.best(parts, times); setting.cap_mm >= room.least_cap_mm) {
        face.sides = setter.set(parts, setting);
        return face;
      }
    if (parts == 0) break;
    face.left_out.push_back(text.parts[parts - 1].what + " is left out");
  }
  face.id_fits = characters_that_fit(text.id, room, type);
  return face;
}

}  // namespace loomleaf
