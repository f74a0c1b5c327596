#include "engine/sight/sight_lines.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace hummock::sight {
namespace {

// Two hits of one sheet nearer than this (share of the line) are its two triangles at their edge.
constexpr double kSameCrossing = 1e-5;

bool is_sheet(const Model& model, const shade::Caster& c) {
  // Glass passes sight whole, whatever light it takes: it is not looked at.
  return c.kind == shade::CasterKind::sheet &&
         model.parts[static_cast<std::size_t>(c.part)].sight < 1.0;
}

bool narrow(const Model& model, const shade::Caster& c, double narrowest) {
  const Vec3 size = c.box.hi - c.box.lo;
  return model.parts[static_cast<std::size_t>(c.part)].kind == PartKind::object &&
         std::max(size.x, size.y) <= narrowest;
}

}  // namespace

bool any_narrow(const Model& model, double narrowest) {
  const std::vector<shade::Caster> casters = shade::casters_of(model);
  return std::any_of(casters.begin(), casters.end(),
                     [&](const shade::Caster& c) { return narrow(model, c, narrowest); });
}

SightLines::SightLines(const Model& model, bool bare, double narrowest)
    : model_(model), bare_(bare), casters_(shade::casters_of(model)) {
  for (std::size_t k = 0; k < casters_.size(); ++k) {
    const shade::Caster& c = casters_[k];
    if (narrow(model, c, narrowest)) continue;
    const auto id = static_cast<std::int32_t>(k);
    if (c.kind == shade::CasterKind::opaque) {
      solids_.add_mesh(*c.mesh, id);
    } else if (c.kind == shade::CasterKind::volume) {
      leaves_.add_mesh(*c.mesh, id);
      has_leaves_ = true;
    } else if (is_sheet(model, c)) {
      sheets_.add_mesh(*c.mesh, id);
      has_sheets_ = true;
    }
  }
  solids_.commit();
  sheets_.commit();
  leaves_.commit();
  has_translucent_ = has_sheets_ || has_leaves_;
  number_things();
}

bool SightLines::seasonal() const {
  return std::any_of(casters_.begin(), casters_.end(), [](const shade::Caster& c) {
    return c.kind == shade::CasterKind::volume && c.bare.has_value();
  });
}

int SightLines::inside_of(const geom::RayScene& scene, Vec3 point) const {
  constexpr double kFarUp = 1e4;  // m
  std::map<std::int32_t, int> more_out;
  for (const geom::Hit& hit : scene.all_hits({point, {0.0, 0.0, 1.0}, 0.0, kFarUp}))
    more_out[hit.id] += hit.normal.z > 0.0 ? 1 : hit.normal.z < 0.0 ? -1 : 0;
  for (const auto& [id, out] : more_out) {
    const shade::Caster& c = casters_[static_cast<std::size_t>(id)];
    const Vec3 size = c.box.hi - c.box.lo;
    if (out > 0 && c.closed && std::min(size.x, size.y) >= kPersonWide)
      return thing_of_[static_cast<std::size_t>(id)];
  }
  return -1;
}

int SightLines::inside(Vec3 eye) const {
  constexpr double kHalf = 0.5;  // m, of a grown person's height below the eyes; not their feet
  const int leaves = inside_of(leaves_, eye);
  if (leaves >= 0) return leaves;
  const int solid = inside_of(solids_, eye);
  return solid >= 0 ? solid : inside_of(solids_, eye - Vec3{0.0, 0.0, kHalf});
}

// Parts of one name are one thing: a tree's trunk and crown, a section's panels and posts.
void SightLines::number_things() {
  std::map<std::string, int> numbers;
  for (const shade::Caster& c : casters_) {
    const std::string& name = model_.parts[static_cast<std::size_t>(c.part)].name;
    const auto [it, fresh] = numbers.try_emplace(name, static_cast<int>(names_.size()));
    if (fresh) names_.push_back(name);
    thing_of_.push_back(it->second);
  }
}

double SightLines::sheet_share(const geom::Hit& hit, Vec3 direction) const {
  const shade::Caster& c = casters_[static_cast<std::size_t>(hit.id)];
  if (c.pitch <= 0.0) return model_.parts[static_cast<std::size_t>(c.part)].sight;
  return shade::sheet_transmittance(c, c.normals[hit.triangle], unit(direction));
}

namespace {

// The share of a line (0..1 long) inside the volume that hits[first] belongs to. The surface is
// wound outwards; a line that starts or ends inside lacks a crossing there.
double share_inside(const std::vector<geom::Hit>& hits, std::size_t first, Vec3 direction) {
  double inside = 0.0, entered = -1.0;
  bool any = false;
  for (std::size_t k = first; k < hits.size(); ++k) {
    if (hits[k].id != hits[first].id) continue;
    if (dot(hits[k].normal, direction) < 0.0) {
      if (entered < 0.0) entered = hits[k].t;
    } else if (entered >= 0.0 || !any) {
      inside += hits[k].t - std::max(entered, 0.0);
      entered = -1.0;
    }
    any = true;
  }
  return entered >= 0.0 ? inside + 1.0 - entered : inside;
}

bool first_of_its_id(const std::vector<geom::Hit>& hits, std::size_t k) {
  for (std::size_t b = 0; b < k; ++b)
    if (hits[b].id == hits[k].id) return false;
  return true;
}

}  // namespace

double SightLines::leaf_share(const std::vector<geom::Hit>& hits, std::size_t first,
                              Vec3 direction) const {
  const shade::Caster& c = casters_[static_cast<std::size_t>(hits[first].id)];
  const double density = c.leaf_density * (bare_ && c.bare ? c.bare_share : 1.0);
  return std::exp(-shade::kLeafProjection * density * length(direction) *
                  share_inside(hits, first, direction));
}

double SightLines::translucent_share(Vec3 a, Vec3 b, double least) const {
  const Vec3 d = b - a;
  double share = 1.0;
  if (has_sheets_) {
    geom::Hit last;
    for (double near = 0.0; near < 1.0 && share >= least;) {
      const geom::Hit hit = sheets_.first_hit({a, d, near, 1.0});
      if (!hit) break;
      const bool same = last && hit.id == last.id && hit.t - last.t < kSameCrossing;
      if (!same) share *= sheet_share(hit, d);
      last = hit;
      near = hit.t + 0.1 * kSameCrossing;
    }
  }
  if (!has_leaves_ || share < least) return share;
  const std::vector<geom::Hit> hits = leaves_.all_hits({a, d, 0.0, 1.0});
  for (std::size_t k = 0; k < hits.size() && share >= least; ++k)
    if (first_of_its_id(hits, k)) share *= leaf_share(hits, k, d);
  return share;
}

std::uint32_t SightLines::blocked(Vec3 eye, const std::array<Vec3, 16>& targets, int count) const {
  geom::RayPacket16 rays;
  for (int k = 0; k < 16; ++k) {
    const Vec3 d = targets[static_cast<std::size_t>(std::min(k, count - 1))] - eye;
    rays.ox[k] = static_cast<float>(eye.x);
    rays.oy[k] = static_cast<float>(eye.y);
    rays.oz[k] = static_cast<float>(eye.z);
    rays.dx[k] = static_cast<float>(d.x);
    rays.dy[k] = static_cast<float>(d.y);
    rays.dz[k] = static_cast<float>(d.z);
    rays.near[k] = 0.0F;
    rays.far[k] = 1.0F;
  }
  rays.valid = count >= 16 ? 0xFFFFU : (1U << static_cast<unsigned>(count)) - 1U;
  return solids_.occluded(rays);
}

bool SightLines::blocked(Vec3 a, Vec3 b) const {
  return solids_.occluded({a, b - a, 0.0, 1.0});
}

std::vector<Taken> SightLines::taken(Vec3 a, Vec3 b) const {
  const Vec3 d = b - a;
  std::map<int, double> by_thing;
  const auto take = [&](std::int32_t caster, double share) {
    const int thing = thing_of_[static_cast<std::size_t>(caster)];
    by_thing.try_emplace(thing, 1.0).first->second *= share;
  };
  for (const geom::Hit& h : solids_.all_hits({a, d, 0.0, 1.0})) take(h.id, 0.0);
  if (has_sheets_) {
    const geom::Hit* last = nullptr;
    const std::vector<geom::Hit> hits = sheets_.all_hits({a, d, 0.0, 1.0});
    for (const geom::Hit& h : hits) {
      const bool same = last != nullptr && last->id == h.id && h.t - last->t < kSameCrossing;
      if (!same) take(h.id, sheet_share(h, d));
      last = &h;
    }
  }
  if (has_leaves_) {
    const std::vector<geom::Hit> hits = leaves_.all_hits({a, d, 0.0, 1.0});
    for (std::size_t k = 0; k < hits.size(); ++k)
      if (first_of_its_id(hits, k)) take(hits[k].id, leaf_share(hits, k, d));
  }
  std::vector<Taken> out;
  out.reserve(by_thing.size());
  for (const auto& [thing, share] : by_thing) out.push_back({thing, share});
  return out;
}

}  // namespace hummock::sight
