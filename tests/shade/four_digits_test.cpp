// Numbers of the tables against fmt's own, which is exact.
#include "engine/base/four_digits.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>

namespace hummock {
namespace {

void expect_same(float value) {
  std::string got;
  append_four_digits(got, value);
  ASSERT_EQ(got, fmt::format("{:.4g}", value)) << std::bit_cast<std::uint32_t>(value);
}

TEST(FourDigits, AnyBits) {
  std::mt19937 random(11);
  for (int k = 0; k < 300000; ++k) expect_same(std::bit_cast<float>(std::uint32_t(random())));
}

TEST(FourDigits, UsualSizes) {
  std::mt19937 random(12);
  std::uniform_real_distribution<double> power(-5.0, 5.0);
  for (int k = 0; k < 300000; ++k)
    expect_same(static_cast<float>(std::pow(10.0, power(random)) * (k % 2 == 0 ? 1.0 : -1.0)));
}

TEST(FourDigits, TiesAndCarries) {
  for (int k = 0; k < 40000; ++k) {
    expect_same(static_cast<float>(k) / 8.0F);
    expect_same(static_cast<float>(k) / 16384.0F);
    expect_same(static_cast<float>(k) / 6.0F);
    expect_same(std::nextafter(static_cast<float>(k) / 10.0F, 0.0F));
  }
}

TEST(FourDigits, Others) {
  using Limits = std::numeric_limits<float>;
  for (const float v : {0.0F, -0.0F, 1.0F, 0.0001F, 0.00009999F, 9999.0F, 9999.5F, 10000.0F, 1e20F,
                        Limits::infinity(), -Limits::infinity(), Limits::quiet_NaN(),
                        Limits::denorm_min(), Limits::max()})
    expect_same(v);
}

}  // namespace
}  // namespace hummock
