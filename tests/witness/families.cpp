#include "tests/witness/families.h"

#include <stdexcept>

namespace hummock::witness {
namespace {

const Makers& makers() {
  static const Makers all = [] {
    Makers out = barrier_families();
    for (const auto& one : thing_families()) out.push_back(one);
    return out;
  }();
  return all;
}

}  // namespace

std::string some_overhang(Random& random) {
  return random.chance(0.5) ? fmt::format("overhang = {{ length = {:.3f}, angle = {:.3f} }}\n",
                                          random.between(0.15, 0.4), random.between(-20.0, 60.0))
                            : "";
}

YardText low_front(Random& random, const Animal& animal, double height, const std::string& kind,
                   const std::string& more, double width) {
  YardText yard(rectangle(width > 0.0 ? width : random.between(3.2, 4.5), random.between(3.4, 4.4)),
                animal);
  yard.section("front", "0", kind, height, more);
  yard.section("rest", "1, 2, 3", kHigh, kHighWall);
  return yard;
}

void step_before(YardText& yard, Random& random, double x, double y, double height) {
  yard.box("step", {x, y + 0.25 + random.between(0.0, 0.25)}, {0.5, 0.5, height});
}

const std::vector<std::string>& families() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> out;
    for (const auto& [name, maker] : makers()) out.push_back(name);
    return out;
  }();
  return names;
}

RandomYard random_yard(const std::string& family, unsigned seed) {
  for (const auto& [name, maker] : makers())
    if (name == family) {
      Random random(seed * 1000003ULL + 17);
      RandomYard yard = maker(random);
      yard.family = family;
      yard.seed = seed;
      return yard;
    }
  throw std::runtime_error("no family " + family);
}

}  // namespace hummock::witness
