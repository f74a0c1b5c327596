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

// Whether it goes on over row m of the strip. With N the nodes of the farther column, P those of
// the nearer: u runs N0 P0 N1 P1 …, and everything is straight between neighbours. The farther
// column's edge is nowhere under the skyline where it is not at any N and any P. u(P) − u(N) is
// u(P) of the way from N to the next N, and u(N1) lies u(N1) of the way from P1 back to P0 (both
// from p − before = 1). The rows' edges, from N to P, and the rising diagonals, from P to the next
// N, stay below where those ends do; a falling diagonal passes the next N on its way, and must do
// so below it.
inline bool rises(const RisingStrip& s, int m) {
  const double row = s.q + (s.j + m), next = s.q + (s.j + m + 1);
  const double corner = row * s.in_before;
  if (s.u[m] != corner || s.u[m + 1] != next * s.in_before) return false;
  const double to = next * s.in_p;
  const double a0 = s.after[m], a1 = s.after[m + 1];
  const double h1 = s.w[m + 1] - (s.w[m + 1] - s.w[m]) * to;
  if (!(a1 >= h1) || !(a0 + (a1 - a0) * corner >= s.w[m])) return false;
  return !s.falling || (a1 - a0) * (s.p + row) >= (s.nearer[m + 1] - a0) * s.before;
}

// Goes on from row to row while the farther column's edge is nowhere under the skyline and the
// cell's other edges are nowhere over it, at most `most` rows, and writes the corners it leaves
// (past them, up to `most`, anything). How many rows it went. Reads corners and nodes [0] to
// [most], nodes of the nearer column too.
int rising_run(const RisingStrip& strip, int most, double* out_u, double* out_w);

// The same row by row, where rising_run takes several at once: its witness, to the last bit.
int rising_run_one_by_one(const RisingStrip& strip, int most, double* out_u, double* out_w);

}  // namespace hummock::geom
