#include "engine/usable/climb_ways.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "engine/model/climbed.h"
#include "engine/species/body.h"

namespace hummock::usable {
namespace {

constexpr double kMostRungs = 400.0;  // 20 m; numeric, a limit of work
constexpr int kMostPairs = 200;       // of spots, between two parts; numeric, a limit of work
constexpr double kOff = 0.02;         // m, off what it stands on
constexpr double kFlatEnough = 0.02;  // m, by which a face may lean out unseen

bool climbs_part(const Model& model, const Part& part) {
  return part.kind == PartKind::object && part.blocks_body &&
         (part.climbable || climbs(model.site.species, part.surface));
}

// How far a face may lean out over the climber for each metre it rises.
double lean_allowed(const Species& species) {
  return species.climbs_past_upright ? std::tan(species.climbs_past_upright->value) : 0.0;
}

class Ways {
 public:
  Ways(const Model& model, const Leaper& climber, const std::vector<RimSpot>& rim, double cell)
      : model_(model),
        climber_(climber),
        rim_(rim),
        far_(kAside * cell),
        lean_(lean_allowed(model.site.species)) {
    for (const Part& part : model.parts) climbed_.push_back(climbs_part(model, part) ? 1 : 0);
    for (std::size_t k = 0; k < rim.size(); ++k) boxes_[box_of(rim[k].at)].push_back(k);
  }

  std::vector<std::pair<int, int>> run() {
    const bool any = std::find(climbed_.begin(), climbed_.end(), 1) != climbed_.end();
    for (std::size_t k = 0; any && k < rim_.size(); ++k) from(k);
    return {found_.begin(), found_.end()};
  }

 private:
  using Box = std::pair<int, int>;
  Box box_of(Vec3 p) const {
    return {static_cast<int>(std::floor(p.x / far_)), static_cast<int>(std::floor(p.y / far_))};
  }

  void from(std::size_t k) {
    const Box here = box_of(rim_[k].at);
    for (int i = here.first - 1; i <= here.first + 1; ++i)
      for (int j = here.second - 1; j <= here.second + 1; ++j) {
        const auto box = boxes_.find({i, j});
        if (box == boxes_.end()) continue;
        for (const std::size_t m : box->second)
          if (m > k) look(rim_[k], rim_[m]);
      }
  }

  void look(const RimSpot& a, const RimSpot& b) {
    const double r = geom::distance(geom::xy(a.at), geom::xy(b.at));
    if (a.part == b.part || a.afloat || b.afloat || r > far_ || !(r > 0.0)) return;
    const std::pair<int, int> pair = std::minmax(a.part, b.part);
    if (found_.count(pair) != 0 || ++tried_[pair] > kMostPairs) return;
    const auto over = over_what_stands_between(a.at, b.at);
    if (over && free_up(a.at, b.at, *over) && free_up(b.at, a.at, *over)) found_.insert(pair);
  }

  // The least height at which it passes from the one to the other; nothing where something on the
  // way up, or down, is not climbed.
  std::optional<double> over_what_stands_between(Vec3 a, Vec3 b) const {
    const bool a_low = a.z < b.z;
    const Vec3 low = a_low ? a : b, high = a_low ? b : a;
    double face = 0.0, other_face = 0.0;  // how far off they stood on the way up
    for (int k = 0; k < kMostRungs; ++k) {
      const double z = low.z + kOff + k * kRung;
      const geom::Hit hit = between(low, high, z);
      if (!hit && z >= high.z) return face > 0.0 ? std::optional(z + kOff) : std::nullopt;
      if (!hit || !climbed(hit, low, high, k, face)) return std::nullopt;
      if (z < high.z + kOff) continue;
      if (!climbed(between(high, low, z), high, low, k, other_face)) return std::nullopt;
    }
    return std::nullopt;
  }

  geom::Hit between(Vec3 p, Vec3 q, double z) const {
    const Vec3 from = at_height(geom::xy(p), z);
    return model_.body_scene->first_hit({from, at_height(geom::xy(q), z) - from, 0.0, 1.0});
  }

  bool climbed(const geom::Hit& hit, Vec3 p, Vec3 q, int rung, double& face) const {
    if (!hit || hit.id == kGroundId) return hit.id == kGroundId && rung == 0;
    const double off = hit.t * geom::distance(geom::xy(p), geom::xy(q));
    if (off < face - kFlatEnough - lean_ * kRung) return false;
    face = std::max(face, off);
    return climbed_[static_cast<std::size_t>(hit.id)] != 0;
  }

  // The air over a spot up to that height, as wide as the body across the way.
  bool free_up(Vec3 p, Vec3 towards, double z) const {
    const Vec2 side =
        geom::left_of(geom::unit(geom::xy(towards) - geom::xy(p))) * climber_.half_width;
    for (const double share : {0.0, 1.0, -1.0}) {
      const Vec3 foot = at_height(geom::xy(p) + side * share, p.z + kOff);
      const double rise = z + climber_.crouch - foot.z;
      if (rise > 0.0 && model_.body_scene->occluded({foot, {0.0, 0.0, rise}, 0.0, 1.0}))
        return false;
    }
    return true;
  }

  const Model& model_;
  Leaper climber_;
  const std::vector<RimSpot>& rim_;
  double far_, lean_;
  std::vector<char> climbed_;  // of each part
  std::map<Box, std::vector<std::size_t>> boxes_;
  std::map<std::pair<int, int>, int> tried_;
  std::set<std::pair<int, int>> found_;
};

}  // namespace

std::vector<std::pair<int, int>> climbed_between(const Model& model, const Leaper& climber,
                                                 const std::vector<RimSpot>& rim, double cell) {
  if (!model.body_scene) return {};
  return Ways(model, climber, rim, cell).run();
}

}  // namespace hummock::usable
