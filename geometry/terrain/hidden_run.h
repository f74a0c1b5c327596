// The other common part of a viewshed's sweep: ground that lies under the skyline.
#pragma once

#include <cstddef>
#include <cstdint>

namespace hummock::geom {

// Where the answers of a column's nodes go, row 0 first: the least visible heights, or, where
// `hidden` is set, 1 for each whose least visible height, as a float, is over `tall`. Nothing is
// written where the answer is 0.
struct ColumnAnswers {
  float* least;
  std::uint8_t* hidden;
  std::ptrdiff_t stride;  // from row to row
  double tall;            // m
  void take(int j, double need) const {
    const auto kept = static_cast<float>(need);
    if (hidden == nullptr)
      least[j * stride] = kept;
    else if (kept > tall)
      hidden[j * stride] = 1;
  }
};

// A strip between two grid columns, p − 1 and p cells from the eye, and the skyline of everything
// nearer.
struct HiddenStrip {
  double p, in_p, q;  // in_p = 1 / p; row j is q + j cells to the side
  const double *after,
      *nearer;          // w of the nodes of the farther and the nearer column, [0] of row 0
  const double *u, *w;  // the skyline's corners
  double slack, slack_of_height;  // m, and share of a height: what hides no more is rounding
  ColumnAnswers answers;
};
// Stands over a node of the farther column.
struct SkylineReader {
  int j;           // the node
  std::size_t at;  // the last corner at or before u
  double u, h;     // the skyline there
};

// Goes on from row to row, not past row `end`, as long as every edge of the strip's next cell lies
// under the skyline (no corner of the cell is higher than the skyline anywhere over it), and writes
// the answers of the nodes it leaves. Rows j − 1 to `end` exist; the skyline goes on past `end`,
// and four corners past its last may be read, whatever they hold.
void hidden_run(const HiddenStrip& strip, int end, SkylineReader& reader);

// The same row by row, where hidden_run takes several at once: its witness, to the last bit.
void hidden_run_one_by_one(const HiddenStrip& strip, int end, SkylineReader& reader);

}  // namespace hummock::geom
