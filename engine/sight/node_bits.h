// One bit for each node of a grid, and eight nodes of a row asked at once.
#pragma once

#include <bit>
#include <cstdint>
#include <cstring>
#include <vector>

#include "geometry/plan/grid.h"

namespace hummock::sight {

static_assert(std::endian::native == std::endian::little, "bytes_set reads eight bytes as one");

// Bit k: is byte k of these eight (each below 4) not 0?
inline unsigned bytes_set(const std::uint8_t* eight) {
  std::uint64_t bytes = 0;
  std::memcpy(&bytes, eight, sizeof bytes);
  const std::uint64_t lowest = (bytes | bytes >> 1U) & 0x0101010101010101U;
  return static_cast<unsigned>(lowest * 0x0102040810204080U >> 56U);
}

class NodeBits {
 public:
  // Of the nodes whose byte in both is not 0 (each below 4).
  NodeBits(const geom::Grid& grid, const std::vector<std::uint8_t>& one,
           const std::vector<std::uint8_t>& other)
      : nx_(grid.nx), bytes_a_row_((grid.nx + 7) / 8) {
    bits_.resize(static_cast<std::size_t>(bytes_a_row_) * static_cast<std::size_t>(grid.ny));
    for (int j = 0; j < grid.ny; ++j)
      for (int i = 0; i < nx_; i += 8) {
        const std::size_t n = grid.index(i, j);
        bits_[place(i, j)] = static_cast<std::uint8_t>(set_from(one, n, i) & set_from(other, n, i));
      }
  }
  bool has(std::size_t node) const {
    const int i = static_cast<int>(node % static_cast<std::size_t>(nx_));
    const int j = static_cast<int>(node / static_cast<std::size_t>(nx_));
    return (bits_[place(i, j)] >> (static_cast<unsigned>(i) & 7U) & 1U) != 0;
  }
  // Of nodes i to i + 7 of row j, i a multiple of 8.
  unsigned eight(int i, int j) const { return bits_[place(i, j)]; }

 private:
  std::size_t place(int i, int j) const {
    return static_cast<std::size_t>(j) * static_cast<std::size_t>(bytes_a_row_) +
           static_cast<std::size_t>(i / 8);
  }
  // The last of a row may be fewer than eight.
  unsigned set_from(const std::vector<std::uint8_t>& bytes, std::size_t n, int i) const {
    if (i + 8 <= nx_) return bytes_set(bytes.data() + n);
    unsigned set = 0;
    for (int k = 0; i + k < nx_; ++k)
      set |= (bytes[n + static_cast<std::size_t>(k)] != 0 ? 1U : 0U) << static_cast<unsigned>(k);
    return set;
  }

  int nx_, bytes_a_row_;
  std::vector<std::uint8_t> bits_;
};

}  // namespace hummock::sight
