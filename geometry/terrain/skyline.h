// A skyline and the merging of straight pieces into it: the working parts of viewshed.cpp.
//
// A skyline is the upper envelope of straight segments in the plane (u, w), kept as its corners in
// rising u. `Merge` reads one and writes the next in a single walk from left to right.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace hummock::geom {

struct Corner {
  double u, w;
};

// An upper envelope: w over rising u, straight between corners.
struct Skyline {
  std::vector<Corner> corners;
  void add(double at, double value) {
    if (!corners.empty() && at <= corners.back().u) {
      corners.back().w = std::max(corners.back().w, value);
      return;
    }
    corners.push_back({at, value});
  }
};

struct Line {
  double u0, w0, slope;
  double at(double u) const { return w0 + slope * (u - u0); }
};
inline Line through(double u0, double w0, double u1, double w1) {
  return {u0, w0, (w1 - w0) / (u1 - u0)};
}

// Walks along one skyline and one row of straight pieces at once, writing the higher of the two.
class Merge {
 public:
  Merge(const Skyline& in, Skyline& out) : in_(in.corners), out_(out), u_(in_[0].u), h_(in_[0].w) {
    out_.corners.clear();
    enter(0);
  }
  double u() const { return u_; }
  double skyline() const { return h_; }  // of `in`, here

  // The next piece: `line` from here to `to`. Nothing happens when `to` is not ahead.
  void raise(const Line& line, double to) {
    double s0 = line.at(u_);
    if (u_ == in_[0].u) out_.add(u_, std::max(s0, h_));
    while (u_ < to) {
      const bool corner = in_[i_ + 1].u <= to;
      const double end = corner ? in_[i_ + 1].u : to;
      const double h1 = corner ? in_[i_ + 1].w : h_ + slope_ * (to - u_);
      const double s1 = line.at(end);
      step(s0 - h_, s1 - h1, end, s0, s1, h1, corner, end == to);
      if (corner && i_ + 2 < in_.size()) enter(i_ + 1);
      u_ = end;
      h_ = h1;
      s0 = s1;
    }
  }
  // Walks on along the skyline, which keeps its corners, to where a reader of it (see `Ahead`) is.
  struct Ahead {
    const Corner* at;  // the last corner at or before u
    double u, h;
  };
  Ahead ahead() const { return {in_.data() + i_, u_, h_}; }
  void pass_under(const Ahead& to) {
    const auto i = static_cast<std::size_t>(to.at - in_.data());
    if (i > i_) {
      out_.add(in_[i_ + 1].u, in_[i_ + 1].w);
      out_.corners.insert(out_.corners.end(), in_.begin() + static_cast<std::ptrdiff_t>(i_) + 2,
                          in_.begin() + static_cast<std::ptrdiff_t>(i) + 1);
      enter(i);
    }
    u_ = to.u;
    h_ = to.h;
    on_piece_ = false;
  }
  // If the skyline's next corners are at `corner` and `beyond` exactly, and a line from (u(), w0)
  // to (to, w1), u() < corner < to <= beyond, is nowhere under it: takes that line and says yes.
  bool rise_over(double w0, double corner, double beyond, double per_u, double to, double w1) {
    if (i_ + 2 >= in_.size() || in_[i_ + 1].u != corner || in_[i_ + 2].u != beyond) return false;
    const double hc = in_[i_ + 1].w, slope = (in_[i_ + 2].w - hc) * per_u;
    const double h1 = hc + slope * (to - corner);
    const double t = (corner - u_) / (to - u_);
    if (w0 < h_ || w1 < h1 || w0 + (w1 - w0) * t < hc) return false;
    if (!on_piece_ || u_ == in_[0].u) out_.add(u_, w0);
    out_.add(to, w1);
    ++i_;
    slope_ = slope;
    u_ = to;
    h_ = h1;
    on_piece_ = true;
    return true;
  }
  void finish() { out_.add(u_, h_); }

 private:
  void enter(std::size_t i) {
    i_ = i;
    slope_ = (in_[i + 1].w - in_[i].w) / (in_[i + 1].u - in_[i].u);
  }
  void step(double d0, double d1, double end, double s0, double s1, double h1, bool corner,
            bool piece_ends) {
    if (d0 <= 0.0 && d1 <= 0.0) {
      on_piece_ = false;
      if (corner || d1 == 0.0) out_.add(end, h1);
      return;
    }
    if (d0 > 0.0 && !on_piece_) out_.add(u_, s0);
    if (d0 * d1 < 0.0) {
      const double t = d0 / (d0 - d1);
      out_.add(u_ + t * (end - u_), s0 + t * (s1 - s0));
    } else if (d0 == 0.0) {
      out_.add(u_, s0);
    }
    on_piece_ = d1 > 0.0;
    if (on_piece_ ? piece_ends : corner || d1 == 0.0) out_.add(end, on_piece_ ? s1 : h1);
  }

  const std::vector<Corner>& in_;
  Skyline& out_;
  std::size_t i_ = 0;
  double u_, h_, slope_ = 0.0;
  bool on_piece_ = false;
};

}  // namespace hummock::geom
