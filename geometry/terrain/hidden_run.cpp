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

// Goes along the skyline to the last of the rows.
Band band_over(const HiddenStrip& s, const SkylineReader& from, SkylineReader& to) {
  to = {from.j + kRows, from.at, u_of(s, from.j + kRows), 0.0};
  while (s.u[to.at + 1] < to.u) ++to.at;
  to.h = skyline_at(s, to.at, to.u);
  const double slope = (to.h - from.h) / (to.u - from.u);
  double low = 0.0, high = 0.0;
  for (std::size_t c = from.at + 1; c <= to.at; ++c) {
    const double off = s.w[c] - (from.h + slope * (s.u[c] - from.u));
    low = std::min(low, off);
    high = std::max(high, off);
  }
  const double at0 = from.h + low - slope * from.u;
  const double nearer = slope / (s.p - 1.0);
  return {at0 + slope * s.q * s.in_p, slope * s.in_p, at0 + nearer * s.q, nearer, high - low};
}

// Bit k: of row j + k.
struct Rows {
  bool under = false;  // every edge over all of them lies under the band
  unsigned hidden = 0, open = 0;
};

Rows judge_plainly(const HiddenStrip& s, const Band& b, int j) {
  Rows rows;
  const double more = (s.answers.tall + rounding(s)) * s.in_p;
  const double less = (s.answers.tall - rounding(s)) * s.in_p - b.band;
  double least = 0.0;
  for (int k = 0; k < kRows; ++k) {
    const double gap = b.at_row0 + b.per_row * (j + k) - s.after[j + k];
    least = std::min(least, gap);
    least = std::min(least, b.nearer0 + b.nearer_per_row * (j + k) - s.nearer[j + k]);
    rows.hidden |= (gap > more ? 1U : 0U) << static_cast<unsigned>(k);
    rows.open |= (gap < less ? 1U : 0U) << static_cast<unsigned>(k);
  }
  rows.under = least >= 0.0;
  return rows;
}

#if defined(__x86_64__)
__attribute__((target("avx2"))) Rows judge_four_by_four(const HiddenStrip& s, const Band& b,
                                                        int j) {
  Rows rows;
  const __m256d more = _mm256_set1_pd((s.answers.tall + rounding(s)) * s.in_p);
  const __m256d less = _mm256_set1_pd((s.answers.tall - rounding(s)) * s.in_p - b.band);
  const __m256d at0 = _mm256_set1_pd(b.at_row0), per = _mm256_set1_pd(b.per_row);
  const __m256d near0 = _mm256_set1_pd(b.nearer0), near_per = _mm256_set1_pd(b.nearer_per_row);
  __m256d n = _mm256_setr_pd(j, j + 1, j + 2, j + 3);
  __m256d least = _mm256_setzero_pd();
  for (int k = 0; k < kRows; k += 4) {
    const __m256d gap =
        _mm256_sub_pd(_mm256_add_pd(at0, _mm256_mul_pd(per, n)), _mm256_loadu_pd(s.after + j + k));
    const __m256d other = _mm256_sub_pd(_mm256_add_pd(near0, _mm256_mul_pd(near_per, n)),
                                        _mm256_loadu_pd(s.nearer + j + k));
    least = _mm256_min_pd(least, _mm256_min_pd(gap, other));
    const auto hidden = _mm256_movemask_pd(_mm256_cmp_pd(gap, more, _CMP_GT_OQ));
    const auto open = _mm256_movemask_pd(_mm256_cmp_pd(gap, less, _CMP_LT_OQ));
    rows.hidden |= static_cast<unsigned>(hidden) << static_cast<unsigned>(k);
    rows.open |= static_cast<unsigned>(open) << static_cast<unsigned>(k);
    n = _mm256_add_pd(n, _mm256_set1_pd(4.0));
  }
  rows.under = _mm256_movemask_pd(least) == 0;
  return rows;
}

Rows judge(const HiddenStrip& s, const Band& b, int j) {
  static const bool wide = __builtin_cpu_supports("avx2") != 0;
  return wide ? judge_four_by_four(s, b, j) : judge_plainly(s, b, j);
}
#else
Rows judge(const HiddenStrip& s, const Band& b, int j) {
  return judge_plainly(s, b, j);
}
#endif

// Over all the next rows at once. Lines whose ends lie under a line lie under it, and the band's
// lower line is nowhere above the skyline.
bool step_over(const HiddenStrip& s, SkylineReader& r) {
  SkylineReader end;
  const Band b = band_over(s, r, end);
  const Rows rows = judge(s, b, r.j);
  const auto under = [&](int j, const double* w, double at0, double per_row) {
    return w[j] <= at0 + per_row * j;
  };
  if (!rows.under || !under(r.j - 1, s.after, b.at_row0, b.per_row) ||
      !under(end.j, s.after, b.at_row0, b.per_row) ||
      !under(end.j, s.nearer, b.nearer0, b.nearer_per_row))
    return false;
  for (unsigned k = 0; k < kRows; ++k)
    if ((rows.hidden >> k & 1U) != 0)
      s.answers.hidden[(r.j + static_cast<int>(k)) * s.answers.stride] = 1;
  const unsigned unsure = ~(rows.hidden | rows.open) & ((1U << kRows) - 1U);
  if (unsure != 0) answer_one_by_one(s, r, unsure);
  r = end;
  return true;
}

}  // namespace

void hidden_run_one_by_one(const HiddenStrip& s, int end, SkylineReader& r) {
  while (r.j < end && step(s, r)) continue;
}

void hidden_run(const HiddenStrip& s, int end, SkylineReader& r) {
  if (s.answers.hidden == nullptr) return hidden_run_one_by_one(s, end, r);
  while (r.j < end) {
    if (!step(s, r)) return;  // first: most often nothing is hidden here
    while (r.j + kRows <= end && step_over(s, r)) continue;
    for (int k = 1; k < kRows; ++k)
      if (r.j >= end || !step(s, r)) return;
  }
}

}  // namespace hummock::geom
