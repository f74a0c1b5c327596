// A site file put together line by line.
#pragma once

#include <fmt/format.h>

#include "tests/witness/yards.h"

namespace hummock::witness {

class YardText {
 public:
  explicit YardText(std::vector<Vec2> outline, Animal animal);
  Animal& animal() { return yard_.animal; }
  double body_height = 0.30;  // m
  std::string ground = "level = 0.0\n";
  double cell = 0.2;    // m
  double margin = 2.0;  // m

  void section(const std::string& name, const std::string& edges, const std::string& kind,
               double height, const std::string& more = "");
  void box(const std::string& name, Vec2 at, Vec3 size, double turn = 0.0, double z = 0.0);
  void mesh(const std::string& name, Vec2 at, const std::string& obj, double turn = 0.0);
  void house(const std::string& name, Vec2 lo, Vec2 hi, double height);
  void add(const std::string& text) { body_ += text; }
  void start(Vec2 at);
  RandomYard done();

 private:
  RandomYard yard_;
  std::string sections_, body_;
};

std::vector<Vec2> rectangle(double width, double depth);
// Stairs of boxes along x that lead to `height` in rises no greater than `rise`, the highest at
// `from`, each `step` farther along +y.
void stairs(YardText& yard, Vec2 from, double height, double rise, double step);
Animal leaper(Random& random);   // climbs nothing
Animal climber(Random& random);  // climbs mesh and bark
// Triangles and quadrilaterals by corner numbers from 1, as OBJ has them.
std::string obj(const std::vector<Vec3>& corners, const std::vector<std::vector<int>>& faces);

}  // namespace hummock::witness
