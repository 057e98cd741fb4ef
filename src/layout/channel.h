// The vertical lines between two neighbouring layers.
#pragma once

#include <cstddef>
#include <vector>

namespace loomleaf {

// A line that comes in at one height on the left and leaves at another on the right.
struct Turn {
  std::size_t segment = 0;
  double from_y = 0.0, to_y = 0.0;
  int track = 0;  // from the left
};

struct ChannelTracks {
  std::vector<Turn> turns;  // those of one segment stand in the order in which it takes them
  int count = 0;
};

// Gives each line that changes its height a track, so that no two lie on each other. `passing` holds the heights of
// all lines of the channel, left and right, which a line with two turns has to keep clear of.
ChannelTracks assign_tracks(std::vector<Turn> wishes, const std::vector<double>& passing);

}  // namespace loomleaf
