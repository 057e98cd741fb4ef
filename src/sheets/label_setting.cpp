#include "label_setting.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <numbers>

#include "loomleaf/sheets/label_fit.h"
#include "loomleaf/units/format.h"

namespace loomleaf {
namespace {

constexpr const char* kNotPrinted =
    "not printed";                      // so begins a fault that keeps a label off the sheets: these are all named
constexpr std::size_t kMostNames = 12;  // of labels with a lesser fault

double label_height(const LabelStock& stock, const LabelSize& size, const LabelText& text) {
  if (stock.kind != LabelKind::strip || !text.outside) return size.label_height_mm;
  return std::min(size.label_height_mm, std::numbers::pi * text.outside->girth.in(millimetres));
}

FaceRoom room_of(const LabelStock& stock, const LabelSize& size, const LabelText& text) {
  FaceRoom room;
  const double cut_away = size.label_height_mm - label_height(stock, size, text);
  const Length girth = text.outside ? text.outside->girth : Length{};
  room.width_mm = size.face.w - 2.0 * kFaceMarginMm;
  room.height_mm = size.face.h - cut_away - 2.0 * kFaceMarginMm;
  room.least_cap_mm = stock.least_cap_mm / height_left(size, girth);
  room.sides = stock.sides;
  if (stock.goes_round())
    room.girth_mm = stock.kind == LabelKind::sleeve ? 2.0 * size.label_height_mm
                    : text.outside                  ? std::numbers::pi * girth.in(millimetres)
                                                    : size.label_height_mm;
  return room;
}

LabelFace face_of(const LabelStock& stock, const LabelSize& size, const LabelText& text, const TextMeasure& type) {
  const FaceRoom room = room_of(stock, size, text);
  return stock.goes_round() ? lay_out_round(text, room, type) : lay_out_flat(text, room, type);
}

// Chooses sizes, sets faces, and collects what has to be said of them.
class Setter {
 public:
  Setter(const LabelStock& stock, const LabelWishes& wishes, const TextMeasure& type)
      : stock_(stock), wishes_(wishes), type_(type), fixed_(stock.find(wishes.size)) {
    done_.by_size.resize(stock.sizes.size());
  }

  void set(const LabelText& text) {
    std::string& size_of = done_.size_of.emplace_back();
    const LabelSize* size = size_for(text);
    if (!size) return;
    if (!fixed_ && !face_of(stock_, *size, text, type_).fits())
      if (const LabelSize* larger = larger_for(text, *size, false)) size = larger;
    SetLabel set{&text, face_of(stock_, *size, text, type_), label_height(stock_, *size, text)};
    if (set.face.fits()) {
      size_of = size->name;
      say_left_out(text, *size, set.face);
      done_.by_size[static_cast<std::size_t>(size - stock_.sizes.data())].push_back(std::move(set));
    } else {
      say(text, fmt::format("{}: {}", kNotPrinted, trouble_with_id(text, *size, set.face)));
    }
  }

  LabelSetting take() {
    for (const Said& said : said_) {
      std::vector<std::string> names = names_in(said);
      const std::string label = names.size() == 1 ? "label" : "labels";
      if (names.size() > kMostNames && !said.is_lost()) {
        const std::size_t more = names.size() - kMostNames;
        names.resize(kMostNames);
        names.push_back(fmt::format("{} more", more));
      }
      done_.remarks.push_back(fmt::format("{} {}: {}", label, fmt::join(names, ", "), said.fault));
    }
    return std::move(done_);
  }

 private:
  const LabelSize* size_for(const LabelText& text) {
    if (!stock_.for_wires()) return fixed_ ? fixed_ : &stock_.sizes.front();
    if (fixed_) {
      say_unfit(text);
      return fixed_;
    }
    if (!text.outside) {
      // Paper and flags can be cut or stuck to suit; a sleeve cannot.
      if (stock_.kind == LabelKind::strip || stock_.kind == LabelKind::flag) return &stock_.sizes.front();
      say(text, fmt::format("{}: the outside diameter is not known: choose --label-size", kNotPrinted));
      return nullptr;
    }
    const LabelSize* size = choose_size(stock_, *text.outside, wishes_.over_terminal);
    if (!size)
      say(text,
          fmt::format("{}: no size of {} goes over {} mm and holds on {} mm; {} would", kNotPrinted, stock_.name,
                      to_text(text.outside->widest.in(millimetres), 2), to_text(text.outside->girth.in(millimetres), 2),
                      wanted_text(stock_, *text.outside, wishes_.over_terminal)));
    return size;
  }

  // Of a size that the user has fixed.
  void say_unfit(const LabelText& text) {
    if (!text.outside) return;
    const bool goes = goes_over(stock_, *fixed_, *text.outside, wishes_.over_terminal);
    if (goes && holds_on(*fixed_, *text.outside)) return;
    const LabelSize* better = choose_size(stock_, *text.outside, wishes_.over_terminal);
    const Length over = std::max(text.outside->widest, goes ? Length{} : wishes_.over_terminal);
    say(text, fmt::format("size {} {} {} mm; {} would", fixed_->name, goes ? "does not hold on" : "does not go over",
                          to_text((goes ? text.outside->girth : over).in(millimetres), 2),
                          better ? "size " + better->name : wanted_text(stock_, *text.outside, wishes_.over_terminal)));
  }

  // A larger size that holds as well, and takes all of the text, or at least its ID.
  const LabelSize* larger_for(const LabelText& text, const LabelSize& than, bool all) const {
    for (const LabelSize* size = &than + 1; size < stock_.sizes.data() + stock_.sizes.size(); ++size) {
      if (text.outside && !holds_on(*size, *text.outside)) continue;
      const LabelFace face = face_of(stock_, *size, text, type_);
      if (face.fits() && (!all || face.left_out.empty())) return size;
    }
    return nullptr;
  }

  std::string trouble_with_id(const LabelText& text, const LabelSize& size, const LabelFace& face) const {
    std::string trouble =
        face.id_fits == 0
            ? fmt::format("letters of {} mm do not go on size {}", to_text(stock_.least_cap_mm, 1), size.name)
            : fmt::format("the ID is too long for size {}; the first {} characters would fit", size.name, face.id_fits);
    if (const LabelSize* larger = larger_for(text, size, false))
      trouble += fmt::format("; size {} would do", larger->name);
    return trouble;
  }

  void say_left_out(const LabelText& text, const LabelSize& size, const LabelFace& face) {
    if (!face.left_out.empty()) {
      std::string said = fmt::format("{}", fmt::join(face.left_out, ", "));
      if (const LabelSize* larger = larger_for(text, size, true))
        said += fmt::format("; size {} has room for all", larger->name);
      say(text, said);
    }
    int missing = 0;
    for (const auto& side : face.sides)
      for (const TextRun& run : side) missing = std::max(missing, type_.missing_glyphs(run.text, run.style));
    if (missing > 0) say(text, fmt::format("{} of its characters cannot be printed", missing));
  }

  // One fault, and the labels that have it.
  struct Said {
    std::string fault;
    std::vector<const LabelText*> texts;
    bool is_lost() const { return fault.starts_with(kNotPrinted); }
  };

  void say(const LabelText& text, const std::string& fault) {
    const auto [at, is_new] = position_.emplace(fault, said_.size());
    if (is_new) said_.push_back({fault, {}});
    said_[at->second].texts.push_back(&text);
  }

  // "W1", or of a wire that it is said of at one end alone: "W1 from".
  std::vector<std::string> names_in(const Said& said) const {
    std::map<std::string_view, int> times;
    for (const LabelText* text : said.texts) ++times[text->id];
    std::vector<std::string> names;
    for (std::size_t i = 0; i < said.texts.size(); ++i) {
      const LabelText& text = *said.texts[i];
      if (i > 0 && said.texts[i - 1]->id == text.id) continue;
      std::string name = type_.fitted(text.id, {2.0, false}, 100.0);
      if (times[text.id] == 1 && !text.end.empty()) name += " " + text.end;
      names.push_back(std::move(name));
    }
    return names;
  }

  const LabelStock& stock_;
  const LabelWishes& wishes_;
  const TextMeasure& type_;
  const LabelSize* fixed_;
  std::vector<Said> said_;                       // in the order they were met
  std::map<std::string, std::size_t> position_;  // of a fault in said_
  LabelSetting done_;
};

}  // namespace

LabelSetting set_labels(const std::vector<LabelText>& texts, const LabelStock& stock, const LabelWishes& wishes,
                        const TextMeasure& type) {
  Setter setter(stock, wishes, type);
  for (const LabelText& text : texts) setter.set(text);
  return setter.take();
}

}  // namespace loomleaf
