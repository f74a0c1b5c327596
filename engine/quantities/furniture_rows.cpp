// Stones, timber, trees, dens, houses.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/quantities/schedule_steps.h"

namespace hummock::quantities {
namespace {

const Part* solid_of(const Model& model, std::size_t object) {
  if (object >= model.object_part.size() || model.object_part[object] < 0) return nullptr;
  const Part& p = model.parts[static_cast<std::size_t>(model.object_part[object])];
  return p.closed ? &p : nullptr;
}

double volume_of(const Model& model, std::size_t object) {
  const Part* part = solid_of(model, object);
  return part != nullptr ? geom::signed_volume(part->mesh) : 0.0;
}

std::string by(const Vec3& s) {
  return fmt::format("{:.2f} by {:.2f} by {:.2f} m", s.x, s.y, s.z);
}

void add_object(const Model& model, std::size_t k, std::vector<Row>& rows) {
  const Object& o = model.site.objects[k];
  const double volume = volume_of(model, k);
  const std::string m3 = fmt::format("{:.3f} m³", volume);
  switch (o.kind) {
    case ObjectKind::boulder:
      rows.push_back({"stone, " + by(o.size), o.name, volume * kStoneDensity, "t", m3, "stone_t"});
      break;
    case ObjectKind::log:
      rows.push_back({fmt::format("log, {:.2f} m long, {:.2f} m thick", o.size.x, o.size.y), o.name,
                      volume, "m³", "", "log_m3"});
      break;
    case ObjectKind::tree:
      rows.push_back({fmt::format("tree, trunk {:.2f} m thick, {:.2f} m high", o.trunk_diameter,
                                  o.trunk_height),
                      o.name, 1.0, "no.", o.crown ? "crown " + by(o.crown->size) : "no crown",
                      "tree_count"});
      break;
    case ObjectKind::box:
      rows.push_back({"box, " + by(o.size), o.name, 1.0, "no.", m3, "box_count"});
      break;
    case ObjectKind::post:
      rows.push_back({fmt::format("post, {:.2f} m thick, {:.2f} m high", o.size.x, o.size.z),
                      o.name, 1.0, "no.", "", "object_post_count"});
      break;
    case ObjectKind::platform:
      rows.push_back({fmt::format("platform, {:.2f} m high", o.size.z), o.name, o.size.x * o.size.y,
                      "m²", "deck", "platform_m2"});
      break;
    case ObjectKind::mesh: {
      const bool closed = solid_of(model, k) != nullptr;
      rows.push_back({"modelled object", o.name, closed ? volume : 1.0, closed ? "m³" : "no.",
                      closed ? fmt::format("{:.2f} t if of stone", volume * kStoneDensity)
                             : std::string("not closed: no volume"),
                      closed ? "modelled_m3" : "modelled_count"});
      break;
    }
  }
}

// Stones by their longest side.
void add_stone_sizes(const Model& model, std::vector<Row>& rows) {
  constexpr std::array<double, 4> kUpTo{0.5, 1.0, 1.5, 1e9};
  std::array<int, 4> count{};
  std::array<double, 4> mass{};
  for (std::size_t k = 0; k < model.site.objects.size(); ++k) {
    const Object& o = model.site.objects[k];
    if (o.kind != ObjectKind::boulder) continue;
    const double side = std::max({o.size.x, o.size.y, o.size.z});
    const auto c = static_cast<std::size_t>(
        std::find_if(kUpTo.begin(), kUpTo.end(), [&](double up) { return side <= up; }) -
        kUpTo.begin());
    ++count[c];
    mass[c] += volume_of(model, k) * kStoneDensity;
  }
  for (std::size_t c = 0; c < kUpTo.size(); ++c) {
    if (count[c] == 0) continue;
    const std::string size = c == 0   ? "up to 0.5 m"
                             : c == 3 ? "over 1.5 m"
                                      : fmt::format("{:.1f} to {:.1f} m", kUpTo[c - 1], kUpTo[c]);
    rows.push_back({"stones, longest side " + size, "all", static_cast<double>(count[c]), "no.",
                    fmt::format("{:.2f} t together at {:.2f} t/m³", mass[c], kStoneDensity),
                    "stone_count"});
  }
}

double path_length(const Burrow& b) {
  double length = 0.0;
  Vec2 at = b.mouth;
  for (const Vec2 p : b.path) {
    length += geom::distance(at, p);
    at = p;
  }
  return length;
}

void add_shelters(const Site& site, std::vector<Row>& rows) {
  for (const Den& d : site.dens)
    rows.push_back({"den, " + by(d.size), d.name, 1.0, "no.",
                    fmt::format("opening {:.2f} m", d.opening), "den_count"});
  for (const Burrow& b : site.burrows)
    rows.push_back({fmt::format("burrow, {:.2f} m deep", b.depth), b.name, path_length(b), "m",
                    "in plan", "burrow_m"});
  for (const House& h : site.houses)
    rows.push_back({fmt::format("house, {:.2f} m high", h.height), h.name,
                    std::abs(geom::signed_area(h.outline)), "m²", "floor", "house_m2"});
}

}  // namespace

void add_furniture(const Model& model, std::vector<Row>& rows) {
  add_stone_sizes(model, rows);
  for (std::size_t k = 0; k < model.site.objects.size(); ++k) add_object(model, k, rows);
  add_shelters(model.site, rows);
}

}  // namespace hummock::quantities
