#include "tests/witness/footholds.h"

#include <algorithm>
#include <map>
#include <set>

namespace hummock::witness {
namespace {

constexpr double kTouch = 1.05;          // radii, from the surface to the ball's centre
constexpr double kBall = 0.95;           // radii that must be free
constexpr double kFlat = 3.0;            // degrees, a bend below it is no edge
constexpr double kSteepestCrest = 60.0;  // degrees along the edge
constexpr double kSky = 60.0;            // m

bool ball_free(const Rays& rays, Vec3 c, double radius) {
  static const std::array<Vec3, 14> kStar = {
      Vec3{1, 0, 0}, {-1, 0, 0}, {0, 1, 0},   {0, -1, 0}, {0, 0, 1},   {0, 0, -1}, {1, 1, 1},
      {-1, -1, -1},  {1, -1, 1}, {-1, 1, -1}, {1, 1, -1}, {-1, -1, 1}, {-1, 1, 1}, {1, -1, -1}};
  for (const Vec3& d : kStar)
    if (!rays.free(c, c + unit(d) * (kBall * radius))) return false;
  return true;
}

// Clear height from the surface up.
bool crouches(const Rays& rays, const Animal& animal, Vec3 centre) {
  const double over = animal.crouch - kTouch * animal.radius();
  return over <= 0.0 || rays.free(centre, centre + Vec3{0, 0, over});
}

class Collector {
 public:
  Collector(const Yard& yard, const Animal& animal, const Spacing& spacing)
      : yard_(yard), animal_(animal), spacing_(spacing) {}
  std::vector<Foothold> collect();

 private:
  void lattice();
  void ground_at(Vec2 p, bool coarse);
  void feet();
  void faces(int number);
  void face(int number, const std::array<int, 3>& triangle);
  void sample(int number, const std::array<Vec3, 3>& t, Vec3 normal, Holding kind);
  bool fresh(const Foothold& f, Vec3 normal);
  void edges(int number);
  void edge(int number, int a, int b, const std::vector<int>& sides);
  void add(Foothold f);
  bool climbed(const Piece& piece) const;
  bool kept(const Foothold& f) const;

  const Yard& yard_;
  const Animal& animal_;
  const Spacing& spacing_;
  std::vector<Foothold> out_;
  std::set<std::array<int, 5>> sampled_;
};

bool Collector::kept(const Foothold& f) const {
  return ball_free(yard_.rays, f.centre, animal_.radius()) &&
         (f.kind == Holding::hold || f.kind == Holding::branch || f.kind == Holding::afloat ||
          crouches(yard_.rays, animal_, f.centre));
}

void Collector::add(Foothold f) {
  if (kept(f)) out_.push_back(f);
}

bool Collector::climbed(const Piece& piece) const {
  const auto has = [](const std::vector<std::string>& list, const std::string& word) {
    return std::find(list.begin(), list.end(), word) != list.end();
  };
  for (const std::string& name : animal_.scrambled)
    if (piece.name.rfind(name, 0) == 0) return piece.stops_a_body() || animal_.crowns;
  if (piece.is_leaves())
    return animal_.crowns && piece.name.find("crown") != std::string::npos &&
           has(animal_.climbs, "bark");
  return has(animal_.climbs, piece.surface);
}

// --- ground

void Collector::ground_at(Vec2 p, bool coarse) {
  const auto hit = yard_.ground.first(at_height(p, kSky), at_height(p, -kSky));
  if (!hit) return;
  Foothold f;
  f.at = hit->at;
  f.piece = yard_.ground_piece;
  f.coarse = coarse;
  const auto level = yard_.water.first(at_height(p, kSky), hit->at);
  const double deep = level ? level->at.z - hit->at.z : 0.0;
  f.kind = deep > animal_.wade_depth ? Holding::afloat : Holding::ground;
  if (f.kind == Holding::afloat && !animal_.swims) return;
  f.centre = (f.kind == Holding::afloat ? level->at : hit->at);
  f.centre.z += kTouch * animal_.radius() / std::max(0.3, hit->normal.z);
  add(f);
}

void Collector::lattice() {
  geom::Box3 box;
  for (const Vec3& p : yard_.pieces[static_cast<std::size_t>(yard_.ground_piece)].corners)
    box.add(p);
  const double step = spacing_.ground;
  int j = 0;
  for (double y = box.lo.y + 0.5 * step; y < box.hi.y; y += step, ++j) {
    int i = 0;
    for (double x = box.lo.x + 0.5 * step; x < box.hi.x; x += step, ++i)
      ground_at({x, y}, i % 2 == 0 && j % 2 == 0);
  }
}

// Ground close to whatever stands on it: below every crest and hold, on either side.
void Collector::feet() {
  const std::size_t raised = out_.size();
  std::map<std::pair<int, int>, bool> taken;
  const double off = 1.3 * animal_.radius() + 0.005;
  for (std::size_t k = 0; k < raised; ++k) {
    const Foothold f = out_[k];
    if (f.piece == yard_.ground_piece || f.kind == Holding::face) continue;
    for (int d = 0; d < 4; ++d) {
      const double a = 0.5 * geom::kPi * d + 0.7;
      const double along = f.kind == Holding::crest && d < 2 ? (d == 0 ? off : -off) : 1.5 * off;
      const Vec2 p = f.kind == Holding::crest && d < 2
                         ? xy(f.at) + xy(f.out) * along
                         : xy(f.at) + Vec2{std::cos(a), std::sin(a)} * along;
      const auto cell = std::make_pair(static_cast<int>(std::floor(p.x / 0.08)),
                                       static_cast<int>(std::floor(p.y / 0.08)));
      if (taken.emplace(cell, true).second) ground_at(p, false);
    }
  }
}

// --- faces

// Fine meshes: one sample of a kind in a cube half as wide as the spacing, for each way it faces.
bool Collector::fresh(const Foothold& f, Vec3 normal) {
  const double side = 0.5 * spacing_.faces;
  const auto cell = [&](double v) { return static_cast<int>(std::floor(v / side)); };
  const int faces = (normal.x > 0.0 ? 1 : 0) + (normal.y > 0.0 ? 2 : 0) + (normal.z > 0.0 ? 4 : 0);
  return sampled_
      .insert({cell(f.at.x), cell(f.at.y), cell(f.at.z), 16 * f.piece + faces,
               static_cast<int>(f.kind)})
      .second;
}

void Collector::sample(int number, const std::array<Vec3, 3>& t, Vec3 normal, Holding kind) {
  // Rows as far apart along either side as the spacing asks: no fewer than one.
  const double u_side = distance(t[0], t[1]);
  const double v_side = distance(t[0], t[2]);
  const int nu = std::max(1, static_cast<int>(std::ceil(u_side / spacing_.faces)));
  const int nv = std::max(1, static_cast<int>(std::ceil(v_side / spacing_.faces)));
  for (int i = 0; i < nu; ++i)
    for (int j = 0; j < nv; ++j) {
      const double u = (i + 1.0 / 3.0) / nu;
      const double v = (j + 1.0 / 3.0) / nv;
      if (u + v >= 1.0) continue;
      Foothold f;
      f.at = t[0] + (t[1] - t[0]) * u + (t[2] - t[0]) * v;
      f.centre = f.at + normal * (kTouch * animal_.radius());
      f.kind = kind;
      f.piece = number;
      if (fresh(f, normal)) add(f);
    }
}

void Collector::face(int number, const std::array<int, 3>& triangle) {
  const Piece& piece = yard_.pieces[static_cast<std::size_t>(number)];
  std::array<Vec3, 3> t{};
  for (std::size_t c = 0; c < 3; ++c) t[c] = piece.corners[static_cast<std::size_t>(triangle[c])];
  const Vec3 n = unit(cross(t[1] - t[0], t[2] - t[0]));
  if (length(n) < 0.5) return;
  for (const double side : {1.0, -1.0}) {
    // Both sides of everything: which is outside is not taken from the file.
    const Vec3 up = n * side;
    const bool stands = piece.stops_a_body() && up.z >= std::cos(animal_.stand_slope);
    const bool holds = climbed(piece) && up.z >= -std::sin(animal_.past_upright) - 1e-9;
    if (stands) {
      sample(number, t, up, Holding::face);
    } else if (piece.is_leaves() && climbed(piece)) {
      sample(number, t, up, Holding::branch);
    } else if (holds) {
      sample(number, t, up, Holding::hold);
    }
  }
}

void Collector::faces(int number) {
  const Piece& piece = yard_.pieces[static_cast<std::size_t>(number)];
  for (const auto& t : piece.triangles) face(number, t);
}

// --- edges

// From the edge into the face: in its plane, square to the edge, unit.
Vec3 into_face(Vec3 a, Vec3 b, Vec3 third) {
  const Vec3 along = unit(b - a);
  return unit(third - a - along * dot(third - a, along));
}

bool cut_across(const Rays& rays, Vec3 at, Vec3 out, double radius) {
  const Vec3 side = out * (kBall * radius);
  for (const double up : {0.3, 1.0, 1.7}) {
    const Vec3 c = at + Vec3{0, 0, up * radius};
    if (!rays.free(c - side, c + side)) return true;
  }
  return false;
}

void Collector::edge(int number, int a, int b, const std::vector<int>& sides) {
  const Piece& piece = yard_.pieces[static_cast<std::size_t>(number)];
  const Vec3 p = piece.corners[static_cast<std::size_t>(a)];
  const Vec3 q = piece.corners[static_cast<std::size_t>(b)];
  if (std::abs(q.z - p.z) > std::sin(kSteepestCrest * geom::kDegree) * distance(p, q)) return;
  Vec3 sum{};
  bool standable = false;
  for (const int third : sides) {
    const Vec3 into = into_face(p, q, piece.corners[static_cast<std::size_t>(third)]);
    if (into.z > std::sin(animal_.stand_slope)) return;
    const double level = std::abs(cross(unit(q - p), into).z);  // of the face's normal
    standable = standable || level >= std::cos(animal_.stand_slope);
    sum = sum + into;
  }
  if (sides.size() == 2 && length(sum) < 2.0 * std::sin(0.5 * kFlat * geom::kDegree)) return;
  Vec3 out = -sum;
  out.z = 0.0;
  const Vec3 along = unit(q - p);
  if (length(out) < 1e-3) out = cross(along, Vec3{0, 0, 1});
  if (length(out) < 1e-6) out = {1, 0, 0};
  out = unit(out);
  const int n = std::max(1, static_cast<int>(std::ceil(distance(p, q) / spacing_.edges)));
  for (int k = 0; k <= n; ++k) {
    Foothold f;
    f.at = lerp(p, q, std::clamp(static_cast<double>(k) / n, 0.002, 0.998));
    f.centre = f.at + Vec3{0, 0, kTouch * animal_.radius()};
    f.kind = Holding::crest;
    f.piece = number;
    f.out = out;
    f.leaps = standable || animal_.crests;
    if (!cut_across(yard_.rays, f.at, out, animal_.radius())) add(f);
  }
}

void Collector::edges(int number) {
  const Piece& piece = yard_.pieces[static_cast<std::size_t>(number)];
  std::map<std::pair<int, int>, std::vector<int>> sides;
  for (const auto& t : piece.triangles)
    for (std::size_t k = 0; k < 3; ++k) {
      const int a = t[k];
      const int b = t[(k + 1) % 3];
      sides[{std::min(a, b), std::max(a, b)}].push_back(t[(k + 2) % 3]);
    }
  for (const auto& [ends, thirds] : sides) edge(number, ends.first, ends.second, thirds);
}

std::vector<Foothold> Collector::collect() {
  for (std::size_t k = 0; k < yard_.pieces.size(); ++k) {
    const Piece& piece = yard_.pieces[k];
    if (piece.is_ground() || piece.is_water()) continue;
    faces(static_cast<int>(k));
    if (piece.stops_a_body()) edges(static_cast<int>(k));
  }
  feet();
  lattice();
  return std::move(out_);
}

}  // namespace

Yard yard_of(std::vector<Piece> pieces) {
  Yard yard;
  yard.pieces = std::move(pieces);
  for (std::size_t k = 0; k < yard.pieces.size(); ++k) {
    const Piece& piece = yard.pieces[k];
    const int number = static_cast<int>(k);
    if (piece.is_ground()) yard.ground_piece = number;
    if (piece.is_ground()) yard.ground.add(piece, number);
    if (piece.is_water()) yard.water.add(piece, number);
    if (piece.stops_a_body()) yard.rays.add(piece, number);
  }
  yard.rays.commit();
  yard.ground.commit();
  yard.water.commit();
  return yard;
}

std::vector<Foothold> footholds(const Yard& yard, const Animal& animal, const Spacing& spacing) {
  return Collector(yard, animal, spacing).collect();
}

}  // namespace hummock::witness
