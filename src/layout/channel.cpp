#include "channel.h"

#include <algorithm>
#include <cmath>

namespace loomleaf {
namespace {

constexpr double clear = 0.9;  // closer lines count as one on the other, mm

bool same_height(double a, double b) { return std::fabs(a - b) < clear; }

bool ranges_meet(const Turn& a, const Turn& b) {
  return std::min(a.from_y, a.to_y) < std::max(b.from_y, b.to_y) + clear &&
         std::min(b.from_y, b.to_y) < std::max(a.from_y, a.to_y) + clear;
}

// Of the lines that go down the lowest turns first, of those that go up the highest: so they do not cross each other.
bool turns_sooner(const Turn& a, const Turn& b) {
  const bool a_down = a.to_y > a.from_y, b_down = b.to_y > b.from_y;
  if (a_down != b_down) return a_down;
  if (a.from_y != b.from_y) return a_down ? a.from_y > b.from_y : a.from_y < b.from_y;
  return a.segment < b.segment;
}

double free_height_near(double y, const std::vector<double>& passing) {
  for (int step = 1;; ++step)
    for (const double side : {1.0, -1.0}) {
      const double height = y + side * 0.6 * step;
      if (height > 0.0 &&
          std::none_of(passing.begin(), passing.end(), [&](double p) { return same_height(p, height); }))
        return height;
    }
}

}  // namespace

// A line that leaves the height at which another arrives has to turn before it. Where two wait for each other, one of
// them turns twice, over a free height between.
ChannelTracks assign_tracks(std::vector<Turn> wishes, const std::vector<double>& passing) {
  std::sort(wishes.begin(), wishes.end(), turns_sooner);
  std::vector<double> taken = passing;
  ChannelTracks tracks;
  auto place = [&](Turn turn) {
    turn.track = 0;
    for (const Turn& other : tracks.turns)
      if (ranges_meet(turn, other)) turn.track = std::max(turn.track, other.track + 1);
    tracks.count = std::max(tracks.count, turn.track + 1);
    tracks.turns.push_back(turn);
  };
  while (!wishes.empty()) {
    auto waits = [&](const Turn& turn) {
      return std::any_of(wishes.begin(), wishes.end(),
                         [&](const Turn& other) { return &other != &turn && same_height(other.from_y, turn.to_y); });
    };
    const auto next = std::find_if_not(wishes.begin(), wishes.end(), waits);
    if (next != wishes.end()) {
      const Turn turn = *next;
      wishes.erase(next);
      place(turn);
      continue;
    }
    Turn& first = wishes.front();
    const double between = free_height_near(first.from_y, taken);
    taken.push_back(between);
    place({first.segment, first.from_y, between, 0});
    first.from_y = between;
  }
  return tracks;
}

}  // namespace loomleaf
