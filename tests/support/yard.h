// Small sites built in code, for tests that need a model and no file.
#pragma once

#include <string>

#include "engine/model/model.h"
#include "engine/site/site.h"

namespace hummock::test {

// A rectangular yard with its south-west corner at `corner`, counter-clockwise from there; edges 0
// south, 1 east, 2 north, 3 west. Level ground at 0, cell 0.1 m, margin 2 m, a fence of one section
// named "fence" (mesh of 25 mm in 2 m raked panels), an invented animal that leaps 0.7 m up and
// 1.4 m far. Change what you need, then call built().
Site yard(double width, double depth, double fence_height, SheetKind kind = SheetKind::mesh,
          Vec2 corner = {0.0, 0.0});

// The invented animal: every figure's source says so.
Species test_animal(double leap_height = 0.7, double leap_distance = 1.4);

// One section for each edge, named "edge 0" …, all like the first section.
void split_sections(Site& site);

// Adds and returns; `at` in plan. Names must differ.
Object& add_box(Site& site, const std::string& name, Vec2 at, Vec3 size);
Object& add_boulder(Site& site, const std::string& name, Vec2 at, Vec3 size,
                    std::uint32_t seed = 1);
Object& add_post(Site& site, const std::string& name, Vec2 at, double diameter, double height);
Object& add_log(Site& site, const std::string& name, Vec2 at, double length, double diameter);
Object& add_platform(Site& site, const std::string& name, Vec2 at, Vec3 size);
Object& add_tree(Site& site, const std::string& name, Vec2 at, double trunk_height, Vec3 crown_size,
                 double crown_base, double leaf_area_density = 1.0);
// A hut without a door.
House& add_hut(Site& site, geom::Polygon outline, double height);
Gate& add_gate(Site& site, int edge, double from, double width, double height);
GroundForm& add_mound(Site& site, Vec2 at, double radius, double height);
// The whole ground falls at `angle` (rad) towards `downhill` (rad clockwise from +y), level at
// `fixed`.
GroundForm& add_slope(Site& site, Vec2 fixed, double angle, double downhill);

Model built(const Site& site, const BuildOptions& options = {});

// The first part of that kind and name; fails the test when there is none.
const Part& part(const Model& model, PartKind kind, const std::string& name);
int count_parts(const Model& model, PartKind kind);

}  // namespace hummock::test
