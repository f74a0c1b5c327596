// What each square of a lattice is, block by block: one value where all its squares have the same,
// else one for each. Open ground costs a value for 256 squares, to keep, to copy and to walk over;
// a copy shares the blocks that nobody changes.
#pragma once

#include <algorithm>
#include <array>
#include <memory>
#include <optional>
#include <vector>

namespace hummock::leap {

inline constexpr int kBlock = 16;  // squares to a side; layout: no answer hangs on it

template <class T>
class BlockGrid {
 public:
  BlockGrid() = default;
  BlockGrid(int nx, int ny, T value)
      : nx_(nx),
        ny_(ny),
        across_((nx + kBlock - 1) / kBlock),
        blocks_(static_cast<std::size_t>(across_) *
                    static_cast<std::size_t>((ny + kBlock - 1) / kBlock),
                Block{value, nullptr}) {}

  bool empty() const { return blocks_.empty(); }
  int nx() const { return nx_; }
  int ny() const { return ny_; }
  int across() const { return across_; }  // blocks
  int up() const { return across_ == 0 ? 0 : static_cast<int>(blocks_.size()) / across_; }

  T at(int i, int j) const {
    const Block& b = blocks_[number(i / kBlock, j / kBlock)];
    return b.cells ? (*b.cells)[cell(i, j)] : b.value;
  }
  // Of a block, where all its squares have one value.
  std::optional<T> whole(int bi, int bj) const {
    const Block& b = blocks_[number(bi, bj)];
    return b.cells ? std::nullopt : std::optional<T>(b.value);
  }
  bool is_whole(int bi, int bj, T value) const {
    const Block& b = blocks_[number(bi, bj)];
    return !b.cells && b.value == value;
  }

  // Of different blocks by any number of threads.
  void set(int i, int j, T value) {
    Block& b = blocks_[number(i / kBlock, j / kBlock)];
    if (!b.cells && b.value == value) return;
    own(b)[cell(i, j)] = value;
  }
  void set_block(int bi, int bj, T value) { blocks_[number(bi, bj)] = {value, nullptr}; }
  // From square i0, j0 to i1, j1, both among them.
  void fill(int i0, int j0, int i1, int j1, T value) {
    for (int bj = j0 / kBlock; bj <= j1 / kBlock; ++bj) {
      for (int bi = i0 / kBlock; bi <= i1 / kBlock; ++bi) {
        const int a0 = std::max(i0, bi * kBlock), a1 = std::min(i1, last(bi, nx_));
        const int b0 = std::max(j0, bj * kBlock), b1 = std::min(j1, last(bj, ny_));
        if (a1 - a0 == last(bi, nx_) - bi * kBlock && b1 - b0 == last(bj, ny_) - bj * kBlock) {
          set_block(bi, bj, value);
          continue;
        }
        for (int b = b0; b <= b1; ++b) {
          for (int a = a0; a <= a1; ++a) set(a, b, value);
        }
      }
    }
  }
  // Back to one value where all its squares have come to have the same.
  void join(int bi, int bj) {
    const Block& b = blocks_[number(bi, bj)];
    if (!b.cells) return;
    const T first = (*b.cells)[0];
    for (int j = bj * kBlock; j <= last(bj, ny_); ++j) {
      for (int i = bi * kBlock; i <= last(bi, nx_); ++i) {
        if ((*b.cells)[cell(i, j)] != first) return;
      }
    }
    set_block(bi, bj, first);
  }
  // Every value v becomes of(v).
  template <class Of>
  void map(const Of& of) {
    for (Block& b : blocks_) {
      b.value = of(b.value);
      if (!b.cells) continue;
      for (T& v : own(b)) v = of(v);
    }
  }
  // The last square of a block along one axis.
  static int last(int block, int count) { return std::min(count, (block + 1) * kBlock) - 1; }

 private:
  using Cells = std::array<T, static_cast<std::size_t>(kBlock) * kBlock>;
  struct Block {
    T value{};
    std::shared_ptr<Cells> cells;
  };
  std::size_t number(int bi, int bj) const {
    return static_cast<std::size_t>(bj) * static_cast<std::size_t>(across_) +
           static_cast<std::size_t>(bi);
  }
  static std::size_t cell(int i, int j) {
    return static_cast<std::size_t>(j % kBlock) * kBlock + static_cast<std::size_t>(i % kBlock);
  }
  Cells& own(Block& b) {
    if (!b.cells) {
      b.cells = std::make_shared<Cells>();
      b.cells->fill(b.value);
    } else if (b.cells.use_count() > 1) {
      b.cells = std::make_shared<Cells>(*b.cells);
    }
    return *b.cells;
  }

  int nx_ = 0, ny_ = 0, across_ = 0;
  std::vector<Block> blocks_;
};

// Visits the squares row by row from the south, those of a block left out at once where `skip`
// (block) says so: asked once of each, when its first row comes.
template <class Skip, class Visit>
void by_rows(int nx, int ny, const Skip& skip, const Visit& visit) {
  const int across = (nx + kBlock - 1) / kBlock;
  std::vector<int> visited;  // blocks of this row of them
  for (int j = 0; j < ny; ++j) {
    if (j % kBlock == 0) {
      visited.clear();
      for (int bi = 0; bi < across; ++bi)
        if (!skip(bi, j / kBlock)) visited.push_back(bi);
    }
    for (const int bi : visited) {
      const int end = std::min(nx, (bi + 1) * kBlock);
      for (int i = bi * kBlock; i < end; ++i) visit(i, j);
    }
  }
}

}  // namespace hummock::leap
