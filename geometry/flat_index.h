// Numbers keys in the order they first come: an open table of numbers beside a list of keys, for
// millions of small keys. (Knuth, The Art of Computer Programming 3, 6.4: linear probing.)
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace hummock::geom {

template <class Key, class Hash>
class FlatIndex {
 public:
  void reserve(std::size_t keys) {
    keys_.reserve(keys);
    grow(2 * keys);
  }
  std::size_t size() const { return keys_.size(); }
  const Key& key(std::size_t number) const { return keys_[number]; }
  // Its number, and whether it came for the first time.
  std::pair<std::uint32_t, bool> number(const Key& key) {
    if (2 * (keys_.size() + 1) > slots_.size()) grow(4 * (keys_.size() + 8));
    std::size_t at = slot_of(key);
    while (slots_[at] != kEmpty) {
      if (keys_[slots_[at]] == key) return {slots_[at], false};
      at = (at + 1) & (slots_.size() - 1);
    }
    slots_[at] = static_cast<std::uint32_t>(keys_.size());
    keys_.push_back(key);
    return {slots_[at], true};
  }

 private:
  static constexpr std::uint32_t kEmpty = 0xFFFFFFFFU;

  std::size_t slot_of(const Key& key) const { return Hash{}(key) & (slots_.size() - 1); }
  void grow(std::size_t least) {
    std::size_t size = 16;
    while (size < least) size *= 2;
    slots_.assign(size, kEmpty);
    for (std::size_t k = 0; k < keys_.size(); ++k) {
      std::size_t at = slot_of(keys_[k]);
      while (slots_[at] != kEmpty) at = (at + 1) & (slots_.size() - 1);
      slots_[at] = static_cast<std::uint32_t>(k);
    }
  }

  std::vector<Key> keys_;
  std::vector<std::uint32_t> slots_;  // a power of 2 of them, at most half full
};

}  // namespace hummock::geom
