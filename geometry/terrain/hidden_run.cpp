#include "geometry/terrain/hidden_run.h"

#include <algorithm>
#include <cmath>

#if defined(__x86_64__)
#include <immintrin.h>
#endif

namespace hummock::geom {

namespace {

double u_of(const HiddenStrip& s, int j) {
  return (s.q + j) * s.in_p;
}

double skyline_at(const HiddenStrip& s, std::size_t at, double u) {
  return s.w[at] + (s.w[at + 1] - s.w[at]) / (s.u[at + 1] - s.u[at]) * (u - s.u[at]);
}

// The highest corner of the cell from row j to the next, and of what else bounds its edges.
double highest(const HiddenStrip& s, int j) {
  const double far = std::max(std::max(s.after[j - 1], s.after[j]), s.after[j + 1]);
  return std::max(far, std::max(s.nearer[j], s.nearer[j + 1]));
}

void answer(const HiddenStrip& s, int j, double h) {
  const double need = (h - s.after[j]) * s.p;
  if (need > s.slack + s.slack_of_height * std::abs(s.after[j]) * s.p) s.answers.take(j, need);
}

// Of the rows from the reader's on whose bit is set.
void answer_one_by_one(const HiddenStrip& s, const SkylineReader& r, unsigned rows) {
  answer(s, r.j, r.h);
  std::size_t at = r.at;
  for (int j = r.j + 1; (rows >>= 1U) != 0; ++j) {
    const double u = u_of(s, j);
    while (s.u[at + 1] < u) ++at;
    if ((rows & 1U) != 0) answer(s, j, skyline_at(s, at, u));
  }
}

// More than a float's of such a height, and than `slack`, m.
double rounding(const HiddenStrip& s) {
  return 1e-6 * (1.0 + s.answers.tall);
}

bool step(const HiddenStrip& s, SkylineReader& r) {
  const double to = u_of(s, r.j + 1), most = highest(s, r.j);
  // No jump for the one corner there may be between two nodes: nobody could foretell it.
  const bool passed = s.u[r.at + 1] < to;
  std::size_t at = r.at + (passed ? 1 : 0);
  double least = std::min(r.h, passed ? s.w[at] : r.h);
  while (s.u[at + 1] < to) least = std::min(least, s.w[++at]);
  const double h = skyline_at(s, at, to);
  if (std::min(least, h) < most) return false;
  answer(s, r.j, r.h);
  r = {r.j + 1, at, to, h};
  return true;
}

constexpr int kRows = 16;  // at once

// The skyline over the next rows, between two straight lines as steep as its chord: the lower one,
// and the upper one `band` above it.
struct Band {
  double at_row0, per_row;  // the lower line over the farther column's nodes: at row 0, a row
  double nearer0, nearer_per_row;  // over the nearer column's
  double band;
};

// Offsets of the skyline's corners after `from`, and before `to`, from a line through `from`.
struct Offsets {
  double low = 0.0, high = 0.0;
};

std::size_t last_before_plainly(const double* corners, std::size_t at, double u) {
  while (corners[at + 1] < u) ++at;
  return at;
}

Offsets offsets_plainly(const HiddenStrip& s, const SkylineReader& from, const SkylineReader& to,
                        double slope) {
  Offsets o;
  for (std::size_t c = from.at + 1; c <= to.at; ++c) {
    const double off = s.w[c] - (from.h + slope * (s.u[c] - from.u));
    o.low = std::min(o.low, off);
    o.high = std::max(o.high, off);
  }
  return o;
}

// Bit k: of the nodes of row j + k.
struct Rows {
  unsigned under = 0;  // both lie under the band
  unsigned hidden = 0, open = 0;
};

Rows judge_plainly(const HiddenStrip& s, const Band& b, int j) {
  Rows rows;
  const double more = (s.answers.tall + rounding(s)) * s.in_p;
  const double less = (s.answers.tall - rounding(s)) * s.in_p - b.band;
  for (int k = 0; k < kRows; ++k) {
    const double gap = b.at_row0 + b.per_row * (j + k) - s.after[j + k];
    const double nearer = b.nearer0 + b.nearer_per_row * (j + k) - s.nearer[j + k];
    rows.under |= (gap >= 0.0 && nearer >= 0.0 ? 1U : 0U) << static_cast<unsigned>(k);
    rows.hidden |= (gap > more ? 1U : 0U) << static_cast<unsigned>(k);
    rows.open |= (gap < less ? 1U : 0U) << static_cast<unsigned>(k);
  }
  return rows;
}

#if defined(__x86_64__)
// Reads up to three corners more, of which the first is at or past u.
__attribute__((target("avx2"))) std::size_t last_before_four_by_four(const double* corners,
                                                                     std::size_t at, double u) {
  const __m256d end = _mm256_set1_pd(u);
  for (;; at += 4) {
    const __m256d before = _mm256_cmp_pd(_mm256_loadu_pd(corners + at + 1), end, _CMP_LT_OQ);
    const auto mask = static_cast<unsigned>(_mm256_movemask_pd(before));
    if (mask != 0xFU) return at + static_cast<std::size_t>(__builtin_ctz(~mask));
  }
}

__attribute__((target("avx2"))) Offsets offsets_four_by_four(const HiddenStrip& s,
                                                             const SkylineReader& from,
                                                             const SkylineReader& to,
                                                             double slope) {
  const __m256d h = _mm256_set1_pd(from.h), u0 = _mm256_set1_pd(from.u);
  const __m256d per = _mm256_set1_pd(slope), end = _mm256_set1_pd(to.u);
  __m256d low = _mm256_setzero_pd(), high = _mm256_setzero_pd();
  for (std::size_t c = from.at + 1; c <= to.at; c += 4) {
    const __m256d u = _mm256_loadu_pd(s.u + c);
    const __m256d line = _mm256_add_pd(h, _mm256_mul_pd(per, _mm256_sub_pd(u, u0)));
    const __m256d off = _mm256_and_pd(_mm256_sub_pd(_mm256_loadu_pd(s.w + c), line),
                                      _mm256_cmp_pd(u, end, _CMP_LT_OQ));
    low = _mm256_min_pd(low, off);
    high = _mm256_max_pd(high, off);
  }
  const __m128d l = _mm_min_pd(_mm256_castpd256_pd128(low), _mm256_extractf128_pd(low, 1));
  const __m128d g = _mm_max_pd(_mm256_castpd256_pd128(high), _mm256_extractf128_pd(high, 1));
  return {_mm_cvtsd_f64(_mm_min_sd(l, _mm_unpackhi_pd(l, l))),
          _mm_cvtsd_f64(_mm_max_sd(g, _mm_unpackhi_pd(g, g)))};
}

__attribute__((target("avx2"))) Rows judge_four_by_four(const HiddenStrip& s, const Band& b,
                                                        int j) {
  Rows rows;
  const __m256d more = _mm256_set1_pd((s.answers.tall + rounding(s)) * s.in_p);
  const __m256d less = _mm256_set1_pd((s.answers.tall - rounding(s)) * s.in_p - b.band);
  const __m256d at0 = _mm256_set1_pd(b.at_row0), per = _mm256_set1_pd(b.per_row);
  const __m256d near0 = _mm256_set1_pd(b.nearer0), near_per = _mm256_set1_pd(b.nearer_per_row);
  const __m256d zero = _mm256_setzero_pd();
  __m256d n = _mm256_setr_pd(j, j + 1, j + 2, j + 3);
  for (int k = 0; k < kRows; k += 4) {
    const __m256d gap =
        _mm256_sub_pd(_mm256_add_pd(at0, _mm256_mul_pd(per, n)), _mm256_loadu_pd(s.after + j + k));
    const __m256d other = _mm256_sub_pd(_mm256_add_pd(near0, _mm256_mul_pd(near_per, n)),
                                        _mm256_loadu_pd(s.nearer + j + k));
    const auto bits = [k](__m256d yes) __attribute__((target("avx2"))) {
      return static_cast<unsigned>(_mm256_movemask_pd(yes)) << static_cast<unsigned>(k);
    };
    rows.under |= bits(_mm256_and_pd(_mm256_cmp_pd(gap, zero, _CMP_GE_OQ),
                                     _mm256_cmp_pd(other, zero, _CMP_GE_OQ)));
    rows.hidden |= bits(_mm256_cmp_pd(gap, more, _CMP_GT_OQ));
    rows.open |= bits(_mm256_cmp_pd(gap, less, _CMP_LT_OQ));
    n = _mm256_add_pd(n, _mm256_set1_pd(4.0));
  }
  return rows;
}

bool wide() {
  static const bool is = __builtin_cpu_supports("avx2") != 0;
  return is;
}
std::size_t last_before(const double* corners, std::size_t at, double u) {
  return wide() ? last_before_four_by_four(corners, at, u) : last_before_plainly(corners, at, u);
}
Offsets offsets(const HiddenStrip& s, const SkylineReader& from, const SkylineReader& to,
                double slope) {
  return wide() ? offsets_four_by_four(s, from, to, slope) : offsets_plainly(s, from, to, slope);
}
Rows judge(const HiddenStrip& s, const Band& b, int j) {
  return wide() ? judge_four_by_four(s, b, j) : judge_plainly(s, b, j);
}
#else
std::size_t last_before(const double* corners, std::size_t at, double u) {
  return last_before_plainly(corners, at, u);
}
Offsets offsets(const HiddenStrip& s, const SkylineReader& from, const SkylineReader& to,
                double slope) {
  return offsets_plainly(s, from, to, slope);
}
Rows judge(const HiddenStrip& s, const Band& b, int j) {
  return judge_plainly(s, b, j);
}
#endif

// Goes along the skyline to a row ahead.
SkylineReader reader_at(const HiddenStrip& s, const SkylineReader& from, int row) {
  const double u = u_of(s, row);
  const std::size_t at = last_before(s.u, from.at, u);
  return {row, at, u, skyline_at(s, at, u)};
}

Band band_over(const HiddenStrip& s, const SkylineReader& from, const SkylineReader& to) {
  const double slope = (to.h - from.h) / (to.u - from.u);
  const Offsets off = offsets(s, from, to, slope);
  const double at0 = from.h + off.low - slope * from.u;
  const double nearer = slope / (s.p - 1.0);
  return {at0 + slope * s.q * s.in_p, slope * s.in_p, at0 + nearer * s.q, nearer,
          off.high - off.low};
}

// How many of the next rows' cells lie under the band. Lines whose ends lie under a line lie under
// it, and the band's lower line is nowhere above the skyline.
int rows_under(const HiddenStrip& s, const Band& b, const Rows& rows, int j) {
  const auto under = [&](int row, const double* w, double at0, double per_row) {
    return w[row] <= at0 + per_row * row;
  };
  if (!under(j - 1, s.after, b.at_row0, b.per_row)) return 0;
  const int end = j + kRows;
  const bool last = under(end, s.after, b.at_row0, b.per_row) &&
                    under(end, s.nearer, b.nearer0, b.nearer_per_row);
  const unsigned nodes = rows.under | (last ? 1U : 0U) << kRows;
  return std::max(0, __builtin_ctz(~nodes) - 1);
}

// All of them, without a jump for each: nobody else answers these nodes.
__attribute__((always_inline)) inline void write_hidden(const HiddenStrip& s, const Rows& rows,
                                                        int j, int many) {
  std::uint8_t* out = s.answers.hidden + j * s.answers.stride;
  for (int k = 0; k < many; ++k)
    out[k * s.answers.stride] = rows.hidden >> static_cast<unsigned>(k) & 1U;
}

// Over as many of the next rows as lie under their band, all at once. Whether over all of them.
bool step_over(const HiddenStrip& s, SkylineReader& r) {
  SkylineReader end = reader_at(s, r, r.j + kRows);
  const Band b = band_over(s, r, end);
  const Rows rows = judge(s, b, r.j);
  const int many = rows_under(s, b, rows, r.j);
  if (many == 0) return false;
  if (many == kRows)  // the commonest, in a loop of a known length
    write_hidden(s, rows, r.j, kRows);
  else
    write_hidden(s, rows, r.j, many);
  const unsigned unsure = ~(rows.hidden | rows.open) & ((1U << static_cast<unsigned>(many)) - 1U);
  if (unsure != 0) answer_one_by_one(s, r, unsure);
  r = many == kRows ? end : reader_at(s, r, r.j + many);
  return many == kRows;
}

}  // namespace

void hidden_run_one_by_one(const HiddenStrip& s, int end, SkylineReader& r) {
  while (r.j < end && step(s, r)) continue;
}

namespace {

// Several rows at once where it pays.
void run(const HiddenStrip& s, int end, SkylineReader& r) {
  while (r.j < end) {
    if (!step(s, r)) return;  // first: most often nothing is hidden here
    while (r.j + kRows <= end && step_over(s, r)) continue;
    for (int k = 1; k < kRows; ++k)
      if (r.j >= end || !step(s, r)) return;
  }
}

#if defined(__x86_64__)
__attribute__((target("avx2"), flatten)) void run_wide(const HiddenStrip& s, int end,
                                                       SkylineReader& r) {
  run(s, end, r);
}
#endif

}  // namespace

void hidden_run(const HiddenStrip& s, int end, SkylineReader& r) {
  if (s.answers.hidden == nullptr) return hidden_run_one_by_one(s, end, r);
#if defined(__x86_64__)
  if (wide()) return run_wide(s, end, r);
#endif
  run(s, end, r);
}

}  // namespace hummock::geom
