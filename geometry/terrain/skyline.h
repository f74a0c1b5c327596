// A skyline and the merging of straight pieces into it: the working parts of viewshed.cpp.
//
// A skyline is the upper envelope of straight segments in the plane (u, w), kept as its corners in
// rising u. `Merge` reads one and writes the next in a single walk from left to right.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "geometry/terrain/hidden_run.h"
#include "geometry/terrain/rising_run.h"

namespace hummock::geom {

// An upper envelope: w over rising u, straight between corners. The two apart, so that several are
// read at once.
class Skyline {
 public:
  std::size_t size() const { return size_; }
  const double* u() const { return u_.data(); }
  const double* w() const { return w_.data(); }
  void clear() { size_ = 0; }
  // Always part of its caller, which has more than it in its registers.
  __attribute__((always_inline)) void add(double at, double value) {
    if (size_ > 0 && at <= u_[size_ - 1]) {
      w_[size_ - 1] = std::max(w_[size_ - 1], value);
      return;
    }
    room(1);
    u_[size_] = at;
    w_[size_++] = value;
  }
  // Corners [from, to) of another, all beyond the last.
  void add(const Skyline& other, std::size_t from, std::size_t to) {
    room(to - from);
    std::copy(other.u() + from, other.u() + to, u_.data() + size_);
    std::copy(other.w() + from, other.w() + to, w_.data() + size_);
    size_ += to - from;
  }
  // Where the next `more` corners are to be written; `wrote` says how many were.
  void room(std::size_t more) {
    if (size_ + more + kReadAhead > u_.size()) [[unlikely]]
      grow(more);
  }
  double* next_u() { return u_.data() + size_; }
  double* next_w() { return w_.data() + size_; }
  void wrote(int corners) { size_ += static_cast<std::size_t>(corners); }

 private:
  __attribute__((noinline)) void grow(std::size_t more) {
    u_.resize(std::max(kLeast, 2 * (size_ + more) + kReadAhead));
    w_.resize(u_.size());
  }
  static constexpr std::size_t kLeast = 256;    // corners there is room for at first
  static constexpr std::size_t kReadAhead = 4;  // corners: they are read so many at a time
  std::vector<double> u_, w_;
  std::size_t size_ = 0;
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
  Merge(const Skyline& in, Skyline& out)
      : in_(in), in_u_(in.u()), in_w_(in.w()), out_(out), u_(in_u_[0]), h_(in_w_[0]) {
    out_.clear();
    enter(0);
  }
  double u() const { return u_; }
  double skyline() const { return h_; }  // of `in`, here

  // The next piece: `line` from here to `to`. Nothing happens when `to` is not ahead.
  void raise(const Line& line, double to) {
    double s0 = line.at(u_);
    if (u_ == in_u_[0]) out_.add(u_, std::max(s0, h_));
    while (u_ < to) {
      const bool corner = in_u_[i_ + 1] <= to;
      const double end = corner ? in_u_[i_ + 1] : to;
      const double h1 = corner ? in_w_[i_ + 1] : h_ + slope_ * (to - u_);
      const double s1 = line.at(end);
      step(s0 - h_, s1 - h1, end, s0, s1, h1, corner, end == to);
      if (corner && i_ + 2 < in_.size()) enter(i_ + 1);
      u_ = end;
      h_ = h1;
      s0 = s1;
    }
  }
  // Walks on along the skyline, which keeps its corners, to where a reader of it is.
  SkylineReader reader(int j) const { return {j, i_, u_, h_}; }
  const Skyline& nearer() const { return in_; }
  bool begins() const { return u_ == in_u_[0]; }
  void pass_under(const SkylineReader& to) {
    if (to.at > i_) {
      out_.add(in_u_[i_ + 1], in_w_[i_ + 1]);
      out_.add(in_, i_ + 2, to.at + 1);
      enter(to.at);
    }
    u_ = to.u;
    h_ = to.h;
    on_piece_ = false;
  }
  // `strip` from here on, for at most `most` rows, as far as rising_run goes; (u(), w0) is the
  // first node of its farther column. How many rows it went.
  int rise(RisingStrip strip, double w0, int most) {
    // At the beginning the first corner may itself be the node's.
    const std::size_t first = begins() && u_ == (strip.q + strip.j) * strip.in_before ? i_ : i_ + 1;
    const std::size_t left = in_.size() - first;
    if (most < 1 || left < 2 || !(w0 >= h_)) return 0;
    most = std::min(most, static_cast<int>(left) - 1);
    strip.u = in_u_ + first;
    strip.w = in_w_ + first;
    if (!rises(strip, 0)) return 0;  // most often: before anything is made ready
    out_.room(static_cast<std::size_t>(most) + 1);
    // The first corner, which is one of this run only if it goes on.
    const bool add_first = !on_piece_ || begins();
    const std::size_t ahead =
        add_first && (out_.size() == 0 || u_ > out_.u()[out_.size() - 1]) ? 1 : 0;
    const int went = rising_run(strip, most, out_.next_u() + ahead, out_.next_w() + ahead);
    const double to = out_.next_u()[ahead + static_cast<std::size_t>(went) - 1];
    if (add_first) out_.add(u_, w0);
    out_.wrote(went);
    i_ = first + static_cast<std::size_t>(went) - 1;
    const double rise = in_w_[i_ + 1] - in_w_[i_];
    slope_ = rise * strip.before;
    u_ = to;
    h_ = in_w_[i_ + 1] - rise * to;
    on_piece_ = true;
    return went;
  }
  void finish() { out_.add(u_, h_); }

 private:
  void enter(std::size_t i) {
    i_ = i;
    slope_ = (in_w_[i + 1] - in_w_[i]) / (in_u_[i + 1] - in_u_[i]);
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

  const Skyline& in_;
  const double *in_u_, *in_w_;
  Skyline& out_;
  std::size_t i_ = 0;
  double u_, h_, slope_ = 0.0;
  bool on_piece_ = false;
};

}  // namespace hummock::geom
