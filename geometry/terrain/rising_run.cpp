#include "geometry/terrain/rising_run.h"

#if defined(__x86_64__)
#include <immintrin.h>
#endif

namespace hummock::geom {

int rising_run_one_by_one(const RisingStrip& s, int most, double* out_u, double* out_w) {
  for (int m = 0; m < most; ++m) {
    if (!rises(s, m)) return m;
    out_u[m] = (s.q + (s.j + m + 1)) * s.in_p;
    out_w[m] = s.after[m + 1];
  }
  return most;
}

#if defined(__x86_64__)

namespace {

struct Went {
  int rows;
  bool stopped;  // the next row does not rise
};

template <bool falling>
__attribute__((target("avx2"))) Went four_by_four(const RisingStrip& s, int most, double* out_u,
                                                  double* out_w) {
  const __m256d in_p = _mm256_set1_pd(s.in_p), in_before = _mm256_set1_pd(s.in_before);
  const __m256d p = _mm256_set1_pd(s.p), before = _mm256_set1_pd(s.before);
  const __m256d q = _mm256_set1_pd(s.q);
  __m256d j = _mm256_setr_pd(s.j, s.j + 1, s.j + 2, s.j + 3);
  const __m256d one = _mm256_set1_pd(1.0), four = _mm256_set1_pd(4.0);
  int m = 0;
  for (; m + 4 <= most; m += 4) {
    const __m256d row = _mm256_add_pd(q, j);
    const __m256d next = _mm256_add_pd(q, _mm256_add_pd(j, one));
    const __m256d corner = _mm256_mul_pd(row, in_before);
    const __m256d to = _mm256_mul_pd(next, in_p);
    const __m256d w0 = _mm256_loadu_pd(s.w + m), w1 = _mm256_loadu_pd(s.w + m + 1);
    const __m256d a0 = _mm256_loadu_pd(s.after + m), a1 = _mm256_loadu_pd(s.after + m + 1);
    const __m256d side = _mm256_sub_pd(a1, a0);
    const __m256d h1 = _mm256_sub_pd(w1, _mm256_mul_pd(_mm256_sub_pd(w1, w0), to));
    __m256d good = _mm256_cmp_pd(a1, h1, _CMP_GE_OQ);
    const auto also = [&good](__m256d yes) __attribute__((target("avx2"))) {
      good = _mm256_and_pd(good, yes);
    };
    also(_mm256_cmp_pd(_mm256_add_pd(a0, _mm256_mul_pd(side, corner)), w0, _CMP_GE_OQ));
    also(_mm256_cmp_pd(_mm256_loadu_pd(s.u + m), corner, _CMP_EQ_OQ));
    also(_mm256_cmp_pd(_mm256_loadu_pd(s.u + m + 1), _mm256_mul_pd(next, in_before), _CMP_EQ_OQ));
    if constexpr (falling) {
      const __m256d away = _mm256_sub_pd(_mm256_loadu_pd(s.nearer + m + 1), a0);
      also(_mm256_cmp_pd(_mm256_mul_pd(side, _mm256_add_pd(p, row)), _mm256_mul_pd(away, before),
                         _CMP_GE_OQ));
    }
    _mm256_storeu_pd(out_u + m, to);  // of those that do not rise too: nobody reads them
    _mm256_storeu_pd(out_w + m, a1);
    const auto mask = static_cast<unsigned>(_mm256_movemask_pd(good));
    if (mask != 0xFU) return {m + __builtin_ctz(~mask), true};
    j = _mm256_add_pd(j, four);
  }
  return {m, false};
}

}  // namespace

int rising_run(const RisingStrip& s, int most, double* out_u, double* out_w) {
  static const bool wide = __builtin_cpu_supports("avx2") != 0;
  if (!wide) return rising_run_one_by_one(s, most, out_u, out_w);
  const auto [many, stopped] = s.falling ? four_by_four<true>(s, most, out_u, out_w)
                                         : four_by_four<false>(s, most, out_u, out_w);
  if (stopped) return many;
  RisingStrip rest = s;
  rest.j += many;
  rest.u += many;
  rest.w += many;
  rest.after += many;
  rest.nearer += many;
  return many + rising_run_one_by_one(rest, most - many, out_u + many, out_w + many);
}

#else

int rising_run(const RisingStrip& s, int most, double* out_u, double* out_w) {
  return rising_run_one_by_one(s, most, out_u, out_w);
}

#endif

}  // namespace hummock::geom
