#include "tests/support/yard.h"

#include <stdexcept>

namespace hummock::test {
namespace {

template <class T>
Sourced<T> invented(T value) {
  Sourced<T> s;
  s.value = value;
  s.source = "invented for the test";
  s.measures = "ledge";
  s.evidence = "assumed";
  return s;
}

// Invented too, but as if a trial had shown it: no "if" of a test that is not about it.
template <class T>
Sourced<T> shown(T value) {
  Sourced<T> s = invented(value);
  s.source = "a trial, invented for the test";
  s.evidence = "trial";
  return s;
}

Object& add(Site& site, ObjectKind kind, const std::string& name, Vec2 at, Vec3 size) {
  Object o;
  o.kind = kind;
  o.name = name;
  o.at = at;
  o.size = size;
  o.where = {"yard.site.toml", 1, "object[" + std::to_string(site.objects.size()) + "]"};
  site.objects.push_back(o);
  return site.objects.back();
}

}  // namespace

Species test_animal(double leap_height, double leap_distance) {
  Species s;
  s.name = "test animal";
  s.leap_height = invented(leap_height);
  s.leap_distance = invented(leap_distance);
  s.grip = shown(0.0);
  s.cling_leap = shown(0.0);
  s.stand_slope = invented(40.0 * geom::kDegree);
  s.climbs = shown(std::vector<std::string>{});
  s.body = invented(std::array<double, 3>{0.40, 0.12, 0.20});
  s.least_opening = invented(0.05);
  s.dig_depth = invented(0.9);
  s.dig_length = invented(3.0);
  s.wade_depth = invented(0.05);
  s.eye_height = invented(0.20);
  // Every row of the body, so that no careful default bears a test that is not about it.
  s.crouch = invented(0.20);
  s.reach = shown(0.0);
  s.perch = shown(0.10);
  s.climbs_past_upright = shown(6.0 * geom::kDegree);
  s.hangs = invented(false);
  s.swims = invented(false);
  s.leap_from_water = shown(0.0);
  return s;
}

Site yard(double width, double depth, double fence_height, SheetKind kind, Vec2 corner) {
  Site site;
  site.name = "test yard";
  site.file = "yard.site.toml";
  site.animals = 1;
  site.species = test_animal();
  site.ground.level = 0.0;
  site.ground.cell = 0.1;
  site.ground.margin = 2.0;
  site.ground.where = {"yard.site.toml", 1, "ground"};
  site.boundary.outline = {corner, corner + Vec2{width, 0}, corner + Vec2{width, depth},
                           corner + Vec2{0, depth}};
  Section fence;
  fence.name = "fence";
  fence.edges = {0, 1, 2, 3};
  fence.kind = kind;
  fence.height = fence_height;
  fence.aperture = kind == SheetKind::mesh ? 0.025 : 0.0;
  fence.where = {"yard.site.toml", 1, "boundary.section[0]"};
  site.boundary.sections = {fence};
  return site;
}

void split_sections(Site& site) {
  const Section like = site.boundary.sections.front();
  site.boundary.sections.clear();
  for (int e = 0; e < static_cast<int>(site.boundary.outline.size()); ++e) {
    Section s = like;
    s.name = "edge " + std::to_string(e);
    s.edges = {e};
    site.boundary.sections.push_back(s);
  }
}

Object& add_box(Site& site, const std::string& name, Vec2 at, Vec3 size) {
  return add(site, ObjectKind::box, name, at, size);
}

Object& add_boulder(Site& site, const std::string& name, Vec2 at, Vec3 size, std::uint32_t seed) {
  Object& o = add(site, ObjectKind::boulder, name, at, size);
  o.seed = seed;
  return o;
}

Object& add_post(Site& site, const std::string& name, Vec2 at, double diameter, double height) {
  return add(site, ObjectKind::post, name, at, {diameter, diameter, height});
}

Object& add_log(Site& site, const std::string& name, Vec2 at, double length, double diameter) {
  return add(site, ObjectKind::log, name, at, {length, diameter, diameter});
}

Object& add_platform(Site& site, const std::string& name, Vec2 at, Vec3 size) {
  return add(site, ObjectKind::platform, name, at, size);
}

Object& add_tree(Site& site, const std::string& name, Vec2 at, double trunk_height, Vec3 crown_size,
                 double crown_base, double leaf_area_density) {
  Object& o = add(site, ObjectKind::tree, name, at, {});
  o.trunk_diameter = 0.2;
  o.trunk_height = trunk_height;
  Crown crown;
  crown.size = crown_size;
  crown.base = crown_base;
  crown.leaf_area_density = leaf_area_density;
  o.crown = crown;
  return o;
}

House& add_hut(Site& site, geom::Polygon outline, double height) {
  House house;
  house.name = "hut";
  house.outline = std::move(outline);
  house.height = height;
  site.houses.push_back(house);
  return site.houses.back();
}

Gate& add_gate(Site& site, int edge, double from, double width, double height) {
  Gate gate;
  gate.name = "gate " + std::to_string(site.boundary.gates.size() + 1);
  gate.edge = edge;
  gate.from = from;
  gate.width = width;
  gate.height = height;
  gate.where = {"yard.site.toml", 1,
                "boundary.gate[" + std::to_string(site.boundary.gates.size()) + "]"};
  site.boundary.gates.push_back(gate);
  return site.boundary.gates.back();
}

GroundForm& add_mound(Site& site, Vec2 at, double radius, double height) {
  GroundForm form;
  form.kind = FormKind::mound;
  form.at = at;
  form.radius = radius;
  form.height = height;
  site.ground.forms.push_back(form);
  return site.ground.forms.back();
}

GroundForm& add_slope(Site& site, Vec2 fixed, double angle, double downhill) {
  GroundForm form;
  form.kind = FormKind::slope;
  form.at = fixed;
  form.angle = angle;
  form.downhill = downhill;
  site.ground.forms.push_back(form);
  return site.ground.forms.back();
}

Model built(const Site& site, const BuildOptions& options) {
  return build_model(site, options);
}

const Part& part(const Model& model, PartKind kind, const std::string& name) {
  for (const Part& p : model.parts) {
    if (p.kind == kind && p.name == name) return p;
  }
  throw std::runtime_error(std::string("no ") + to_string(kind) + " named '" + name + "'");
}

int count_parts(const Model& model, PartKind kind) {
  int count = 0;
  for (const Part& p : model.parts) count += p.kind == kind ? 1 : 0;
  return count;
}

}  // namespace hummock::test
