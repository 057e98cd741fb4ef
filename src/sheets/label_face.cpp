#include "label_face.h"

#include <algorithm>

namespace loomleaf {
namespace {

constexpr double kMostIdTimes = 2.5;
constexpr double kFlat = 4.0;               // a face is flat that is so many times as wide as high
constexpr double kWorthAnotherLook = 1.12;  // so much larger must letters be for a setting unlike its neighbours
constexpr double kRuleDepth = 0.47;         // how far the rule under the ID reaches, in heights
constexpr std::size_t kMostParts = 8;       // each more doubles the ways to break the lines

using Parts = std::vector<LabelText::Part>;

// One way to set a label: some lines beside the ID, or the first of them behind it and the others below.
struct Setting {
  bool beside = true;
  std::vector<std::string> lines;  // stacked: the first is what follows the ID, and may be empty
  double cap_mm = 0.0;
  double id_times = 1.0;
};

class Typesetter {
 public:
  Typesetter(const FaceRoom& room, const TextMeasure& type, const LabelText& text)
      : width_(room.width_mm),
        height_(room.height_mm),
        most_cap_(room.most_cap_mm()),
        together_(text.together),
        type_(type),
        between_(text.between),
        id_(measure_id(text.id, type)),
        line_ascent_(type.ascent({1.0, false})),
        line_height_(line_ascent_ + type.descent({1.0, false})) {}

  // The setting with the largest letters, the ID being `id_times` as high as they. Of settings that are much alike the
  // plainest, so that the labels of a sheet look the same: beside the ID on a flat face, below it on another, the first
  // parts in one line and the rest in the next.
  Setting best(const Parts& parts, double id_times) const {
    Setting best;
    const unsigned ways = parts.empty() ? 1u : 1u << (parts.size() - 1);
    const unsigned behind_first = together_ > 0 && parts.size() > together_ ? 1u << (together_ - 1) : 0u;
    const auto consider = [&](bool beside, bool id_alone, unsigned breaks) {
      Setting setting{beside, broken(parts, breaks), 0.0, id_times};
      if (id_alone) setting.lines.insert(setting.lines.begin(), "");
      setting.cap_mm = std::min(most_cap_, largest_cap(setting, id_times));
      if (setting.cap_mm > best.cap_mm * kWorthAnotherLook) best = setting;
    };
    const bool is_flat = width_ > kFlat * height_;
    consider(is_flat, !is_flat, behind_first);
    for (const bool beside : {true, false})
      for (unsigned breaks = 0; breaks < ways; ++breaks) {
        // Where there is more than one line, the first parts and the rest do not share one.
        if (breaks != 0 && (breaks & behind_first) != behind_first) continue;
        consider(beside, false, breaks);
        if (!beside) consider(beside, true, breaks);
      }
    // What room is left is the ID's.
    const double low = id_times;
    for (double times = kMostIdTimes; times > low; times -= 0.05)
      if (largest_cap(best, times) >= best.cap_mm) {
        best.id_times = times;
        break;
      }
    return best;
  }

  std::vector<TextRun> set(const std::string& id, const Setting& setting) const {
    std::vector<TextRun> runs;
    const double cap = setting.cap_mm, id_cap = cap * setting.id_times;
    const double step = cap * line_height_, id_height = id_cap * id_.height;
    const double id_ascent = type_.ascent({id_cap, true});
    const double beside_x = id_cap * id_.width + kIdGap * cap;
    const auto put = [&](double x, double baseline, const std::string& text, bool is_id) {
      if (!text.empty())
        runs.push_back({{x, baseline}, text, {is_id ? id_cap : cap, is_id}, TextRun::Anchor::start, {}, 0.0, is_id});
    };
    const double lines = static_cast<double>(setting.lines.size());
    if (setting.beside) {
      put(0.0, (height_ - id_height) / 2.0 + id_ascent, id, true);
      double baseline = (height_ - lines * step) / 2.0 + cap * line_ascent_;
      for (const std::string& line : setting.lines) {
        put(beside_x, baseline, line, false);
        baseline += step;
      }
    } else {
      const double top = (height_ - id_height - std::max(0.0, lines - 1.0) * step) / 2.0;
      put(0.0, top + id_ascent, id, true);
      double baseline = top + id_ascent, line_top = top + id_height;
      for (std::size_t i = 0; i < setting.lines.size(); ++i) {
        put(i == 0 ? beside_x : 0.0, baseline, setting.lines[i], false);
        baseline = line_top + cap * line_ascent_;
        line_top += step;
      }
    }
    return runs;
  }

 private:
  // The parts in order, a new line behind each part whose bit is set.
  std::vector<std::string> broken(const Parts& parts, unsigned breaks) const {
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const bool new_line = i == 0 || (breaks >> (i - 1) & 1u) != 0;
      if (new_line)
        lines.push_back(parts[i].text);
      else
        lines.back() += between_ + parts[i].text;
    }
    return lines;
  }

  double largest_cap(const Setting& setting, double id_times) const {
    const double id_width = id_times * id_.width, id_height = id_times * id_.height;
    const double count = static_cast<double>(setting.lines.size());
    double widest = 0.0, first = 0.0;
    for (std::size_t i = 0; i < setting.lines.size(); ++i) {
      const double w = type_.width(setting.lines[i], {1.0, false});
      (i == 0 && !setting.beside ? first : widest) = std::max(i == 0 && !setting.beside ? first : widest, w);
    }
    if (setting.beside) {
      const double across = id_width + (count > 0.0 ? kIdGap + widest : 0.0);
      return std::min(width_ / across, height_ / std::max(id_height, count * line_height_));
    }
    const double across = std::max(id_width + (first > 0.0 ? kIdGap + first : 0.0), widest);
    return std::min(width_ / across, height_ / (id_height + std::max(0.0, count - 1.0) * line_height_));
  }

  double width_, height_, most_cap_;
  std::size_t together_;
  const TextMeasure& type_;
  const std::string& between_;
  IdMeasures id_;
  double line_ascent_, line_height_;  // in heights of a capital, since all of it grows with them
};

}  // namespace

IdMeasures measure_id(const std::string& id, const TextMeasure& type) {
  const TextStyle bold{1.0, true}, plain{1.0, false};
  const double ascent = std::max(type.ascent(bold), type.ascent(plain));
  return {type.width(id, bold), ascent + std::max({kRuleDepth, type.descent(bold), type.descent(plain)}), ascent};
}

std::size_t characters_that_fit(const std::string& id, const FaceRoom& room, const TextMeasure& type) {
  if (measure_id(id, type).height * room.least_cap_mm > room.height_mm) return 0;
  const auto starts_character = [&](std::size_t at) { return (static_cast<unsigned char>(id[at]) & 0xC0) != 0x80; };
  std::size_t fit = 0, characters = 0;
  for (std::size_t end = 1; end <= id.size(); ++end) {
    if (end < id.size() && !starts_character(end)) continue;
    ++characters;
    if (type.width(id.substr(0, end), {room.least_cap_mm, true}) > room.width_mm) break;
    fit = characters;
  }
  return fit;
}

LabelFace lay_out_flat(const LabelText& text, const FaceRoom& room, const TextMeasure& type) {
  LabelFace face;
  Parts parts = text.parts;
  for (; parts.size() > kMostParts; parts.pop_back()) parts[parts.size() - 2].text += text.between + parts.back().text;
  const Typesetter setter(room, type, text);
  for (;;) {
    for (const double times : kIdTimes)
      if (const Setting setting = setter.best(parts, times); setting.cap_mm >= room.least_cap_mm) {
        face.sides.push_back(setter.set(text.id, setting));
        return face;
      }
    if (parts.empty()) break;
    face.left_out.push_back(parts.back().what + " is left out");
    parts.pop_back();
  }
  face.id_fits = characters_that_fit(text.id, room, type);
  return face;
}

}  // namespace loomleaf
