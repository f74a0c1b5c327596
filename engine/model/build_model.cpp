#include <fmt/format.h>

#include <algorithm>

#include "engine/ground/beyond.h"
#include "engine/ground/ground.h"
#include "engine/ground/guests.h"
#include "engine/model/body_scene.h"
#include "engine/model/build/build_steps.h"
#include "engine/model/local_site.h"
#include "engine/species/young.h"

namespace hummock {
namespace {

// The outline counter-clockwise, and which edge of the file each of its edges is.
void take_outline(Model& model) {
  const Polygon& drawn = model.site.boundary.outline;
  const int n = static_cast<int>(drawn.size());
  model.outline = drawn;
  if (geom::signed_area(drawn) < 0.0) {
    std::reverse(model.outline.begin(), model.outline.end());
    for (int k = 0; k < n; ++k) model.edge_of.push_back((2 * n - 2 - k) % n);
  } else {
    for (int k = 0; k < n; ++k) model.edge_of.push_back(k);
  }
}

void take_ground(Model& model, const Progress& progress) {
  ground::Built built = ground::build(model.site, model.origin, progress);
  model.surveyed = std::move(built.surveyed);
  model.ground = std::move(built.shaped);
  model.notes.insert(model.notes.end(), built.notes.begin(), built.notes.end());
  model.unseen = std::move(built.unseen);
  model.read.insert(model.read.end(), built.read.begin(), built.read.end());
  for (std::size_t k = 0; k < built.water_levels.size(); ++k) {
    model.site.waters[k].level = built.water_levels[k];
  }
  model.beyond = ground::beyond(model.site, model.origin);
  const auto guests =
      ground::guessed_under_guests(model.site, {model.ground, built.guessed}, model.beyond.get());
  if (guests) model.unseen.push_back(*guests);
}

// Panels and gateways tell the ground as it lies, not as it was built on.
void lay_allowances(Model& model, const BuildOptions& options) {
  ground::lay_allowances(model.ground, model.outline, options.snow, options.scour);
  model.snow = options.snow;
  for (Panel& p : model.panels) {
    p.ground_a = geom::height_at(model.ground, p.a);
    p.ground_b = geom::height_at(model.ground, p.b);
  }
  for (Gateway& g : model.gateways) {
    g.ground_a = geom::height_at(model.ground, g.a);
    g.ground_b = geom::height_at(model.ground, g.b);
  }
}

// Every output that shows the notes then says what the model was built with.
void note_allowances(Model& model, const BuildOptions& options) {
  const auto note = [&](double value, const std::string& words) {
    if (value > 0.0) model.notes.push_back(fmt::format("built with {:g}{}", value, words));
  };
  note(options.snow, " m of snow or drifted sand laid on the ground");
  note(100.0 * options.growth, " % of growth on trees and plantings");
  note(options.scour, " m of ground lost near the fence");
}

void note_accepted(Model& model) {
  std::string ids;
  for (const std::string& id : model.site.accept) ids += (ids.empty() ? "" : ", ") + id;
  if (!ids.empty())
    model.notes.push_back("doubtful input is used as it stands, as the site file accepts: " + ids);
}

}  // namespace

std::shared_ptr<const geom::RayScene> body_scene_of(const Model& model) {
  geom::RayScene scene;
  scene.add_ground(model.ground, kGroundId);
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    if (model.parts[k].blocks_body) {
      scene.add_mesh(model.parts[k].mesh, static_cast<std::int32_t>(k));
    }
  }
  scene.commit();
  return std::make_shared<const geom::RayScene>(std::move(scene));
}

Model build_model(const Site& site, const BuildOptions& options, const Progress& progress) {
  Model model;
  model.origin = local_origin(site);
  model.site = shifted(site, model.origin);
  for (const std::string& note : young_notes(site.species)) model.notes.push_back(note);
  model.site.species = young_and_grown(site.species);
  model.read = site.read;
  take_outline(model);
  take_ground(model, progress);
  progress.step("boundary", 0.0);
  build_boundary(model);
  build_overhangs(model);
  build_below_ground(model);
  build_gates(model);
  progress.step("roof", 0.0);
  build_roof(model);
  progress.step("objects", 0.0);
  build_objects(model, options.growth, progress);
  build_shelters(model, options.growth);
  refuse_surroundings_within(model);
  lay_allowances(model, options);
  note_allowances(model, options);
  note_accepted(model);
  progress.step("ray scene", 0.0);
  model.body_scene = body_scene_of(model);
  progress.step("ray scene", 1.0);
  return model;
}

}  // namespace hummock
