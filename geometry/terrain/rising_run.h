// The commonest part of a viewshed's sweep by itself: ground that rises clear of everything nearer.
#pragma once

#include <cstddef>

namespace hummock::geom {

// A strip between two grid columns, p − 1 and p cells from the eye, from row `j` on, q + j cells to
// the side; as long as the skyline's corners are over the nodes of the nearer column.
struct RisingStrip {
  double p, before;        // before = p − 1, but of full precision where p is small
  double in_p, in_before;  // their inverses
  double q;
  int j;
  const double *u, *w;           // the skyline's corners, [0] over the nearer node of row j
  const double *after, *nearer;  // w of the nodes of the farther and the nearer column, [0] alike
  bool falling;                  // which way the cells' diagonals run (eighth_sweep.cpp)
};

// Goes on from row to row while the farther column's edge is nowhere under the skyline and the
// cell's other edges are nowhere over it, at most `most` rows, and writes the corners it leaves.
// How many rows it went. Reads corners and nodes [0] to [most], nodes of the nearer column too.
int rising_run(const RisingStrip& strip, int most, double* out_u, double* out_w);

// The same row by row, where rising_run takes several at once: its witness, to the last bit.
int rising_run_one_by_one(const RisingStrip& strip, int most, double* out_u, double* out_w);

}  // namespace hummock::geom
