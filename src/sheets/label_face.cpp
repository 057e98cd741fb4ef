#include "label_face.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace loomleaf {
namespace {

constexpr double kMostCap = 3.5;                 // larger letters make no label better to read
constexpr double kIdTimes[] = {1.5, 1.25, 1.0};  // the ID's height, in heights of the other letters: the best that goes
constexpr double kMostIdTimes = 2.5;
constexpr double kFlat = 4.0;               // a face is flat that is so many times as wide as high
constexpr double kWorthAnotherLook = 1.12;  // so much larger must letters be for a setting unlike its neighbours
constexpr double kGap = 1.2;                // between the ID and what stands beside it, in heights
constexpr double kRuleDepth = 0.47;         // how far the rule under the ID reaches, in heights
constexpr const char* kBetween = "   ";     // between two parts in one line

struct Part {
  std::string what, text;
};

// Everything in heights of a capital, since all of it grows with them.
struct Measures {
  double id_width, id_height, line_height, ascent;
};

// One way to set a label: some lines beside the ID, or the first of them behind it and the others below.
struct Setting {
  bool beside = true;
  std::vector<std::string> lines;  // stacked: the first is what follows the ID, and may be empty
  double cap_mm = 0.0;
  double id_times = 1.0;
};

class Typesetter {
 public:
  Typesetter(double width, double height, const TextMeasure& type, const std::string& id)
      : width_(width), height_(height), type_(type) {
    const TextStyle plain{1.0, false}, bold{1.0, true};
    measures_ = {type.width(id, bold), type.ascent(bold) + std::max(kRuleDepth, type.descent(bold)),
                 type.ascent(plain) + type.descent(plain), type.ascent(plain)};
  }

  // The setting with the largest letters, the ID being `id_times` as high as they. Of settings that are much alike the
  // plainest, so that the labels of a sheet look the same: beside the ID on a flat face, below it on another, the ends
  // in one line and the rest in the next.
  Setting best(const std::vector<Part>& parts, double id_times) const {
    Setting best;
    const unsigned ways = parts.empty() ? 1u : 1u << (parts.size() - 1);
    const unsigned behind_ends = parts.size() > 2 ? 1u << 1 : 0u;
    const auto consider = [&](bool beside, bool id_alone, unsigned breaks) {
      Setting setting{beside, broken(parts, breaks), 0.0, id_times};
      if (id_alone) setting.lines.insert(setting.lines.begin(), "");
      setting.cap_mm = std::min(kMostCap, largest_cap(setting, id_times));
      if (setting.cap_mm > best.cap_mm * kWorthAnotherLook) best = setting;
    };
    const bool is_flat = width_ > kFlat * height_;
    consider(is_flat, !is_flat, behind_ends);
    for (const bool beside : {true, false})
      for (unsigned breaks = 0; breaks < ways; ++breaks) {
        // Where there is more than one line, the ends and the rest do not share one.
        if (breaks != 0 && (breaks & behind_ends) != behind_ends) continue;
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
    const double step = cap * measures_.line_height, id_height = id_cap * measures_.id_height;
    const double id_ascent = type_.ascent({id_cap, true});
    const double beside_x = id_cap * measures_.id_width + kGap * cap;
    const auto put = [&](double x, double baseline, const std::string& text, bool is_id) {
      if (!text.empty())
        runs.push_back({{x, baseline}, text, {is_id ? id_cap : cap, is_id}, TextRun::Anchor::start, {}, 0.0, is_id});
    };
    const double lines = static_cast<double>(setting.lines.size());
    if (setting.beside) {
      put(0.0, (height_ - id_height) / 2.0 + id_ascent, id, true);
      double baseline = (height_ - lines * step) / 2.0 + cap * measures_.ascent;
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
        baseline = line_top + cap * measures_.ascent;
        line_top += step;
      }
    }
    return runs;
  }

  const Measures& measures() const { return measures_; }

 private:
  // The parts in order, a new line behind each part whose bit is set.
  static std::vector<std::string> broken(const std::vector<Part>& parts, unsigned breaks) {
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const bool new_line = i == 0 || (breaks >> (i - 1) & 1u) != 0;
      if (new_line)
        lines.push_back(parts[i].text);
      else
        lines.back() += kBetween + parts[i].text;
    }
    return lines;
  }

  double largest_cap(const Setting& setting, double id_times) const {
    const double id_width = id_times * measures_.id_width, id_height = id_times * measures_.id_height;
    const double count = static_cast<double>(setting.lines.size());
    double widest = 0.0, first = 0.0;
    for (std::size_t i = 0; i < setting.lines.size(); ++i) {
      const double w = type_.width(setting.lines[i], {1.0, false});
      (i == 0 && !setting.beside ? first : widest) = std::max(i == 0 && !setting.beside ? first : widest, w);
    }
    if (setting.beside) {
      const double across = id_width + (count > 0.0 ? kGap + widest : 0.0);
      return std::min(width_ / across, height_ / std::max(id_height, count * measures_.line_height));
    }
    const double across = std::max(id_width + (first > 0.0 ? kGap + first : 0.0), widest);
    return std::min(width_ / across, height_ / (id_height + std::max(0.0, count - 1.0) * measures_.line_height));
  }

  double width_, height_;
  const TextMeasure& type_;
  Measures measures_{};
};

std::vector<Part> parts_of(const Label& label) {
  std::vector<Part> parts;
  const auto add = [&](const char* what, const std::string& before, const std::string& text) {
    if (!text.empty()) parts.push_back({what, before + text});
  };
  add("where it lands", "at ", label.lands_at);
  add("the far end", "to ", label.far_end);
  add("its fuse", "", label.fuse);
  add("its size", "", label.size);
  return parts;
}

// Cut to the face's width, since it would not fit even alone: at the least height, in as many lines as there is room
// for.
std::vector<TextRun> cut_to_fit(const Typesetter& setter, const std::string& id, const std::vector<Part>& parts,
                                double width, double height, double cap, const TextMeasure& type,
                                std::vector<std::string>& cut) {
  const auto fit = [&](const Part& part, bool bold) {
    std::string text = type.fitted(part.text, {cap, bold}, width);
    if (text != part.text) cut.push_back(part.what + " is shortened");
    return text;
  };
  const std::string short_id = fit({"the ID", id}, true);
  Setting setting{false, {""}, cap, 1.0};
  double used = cap * setter.measures().id_height;
  for (const Part& part : parts) {
    used += cap * setter.measures().line_height;
    if (used > height)
      cut.push_back(part.what + " is left out");
    else
      setting.lines.push_back(fit(part, false));
  }
  return setter.set(short_id, setting);
}

}  // namespace

LabelFace lay_out_label(const Label& label, double width_mm, double height_mm, double least_cap_mm,
                        const TextMeasure& type) {
  LabelFace face;
  std::vector<std::string> faults;
  std::vector<Part> parts = parts_of(label);
  const Typesetter setter(width_mm, height_mm, type, label.id);
  std::optional<Setting> chosen;
  const std::size_t needed = std::min<std::size_t>(parts.size(), 2);  // both ends stay; size and fuse may go
  while (!chosen) {
    for (const double times : kIdTimes) {
      const Setting setting = setter.best(parts, times);
      if (setting.cap_mm < least_cap_mm) continue;
      chosen = setting;
      break;
    }
    if (chosen || parts.size() <= needed) break;
    faults.push_back(parts.back().what + " is left out");
    parts.pop_back();
  }
  if (!chosen) {
    faults.clear();
    parts = parts_of(label);
  }
  face.runs = chosen ? setter.set(label.id, *chosen)
                     : cut_to_fit(setter, label.id, parts, width_mm, height_mm, least_cap_mm, type, faults);
  for (const TextRun& run : face.runs)
    if (const int missing = type.missing_glyphs(run.text, run.style); missing > 0)
      faults.push_back(fmt::format("{} of its characters cannot be printed", missing));
  for (const std::string& fault : faults)
    face.could_not_fit.push_back(fmt::format("label {} at {}: {}", type.fitted(label.id, {2.0, false}, 100.0),
                                             type.fitted(label.lands_at, {2.0, false}, 100.0), fault));
  return face;
}

}  // namespace loomleaf
