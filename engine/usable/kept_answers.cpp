#include "engine/usable/kept_answers.h"

#include <tbb/task_arena.h>

#include <cstdint>

namespace hummock::usable {
namespace {

void add(double v, std::string& bytes) {
  bytes.append(reinterpret_cast<const char*>(&v), sizeof v);
}

template <class Value>
void add_value(const Sourced<Value>& figure, std::string& bytes) {
  if constexpr (std::is_same_v<Value, std::vector<std::string>>) {
    add(static_cast<double>(figure.value.size()), bytes);
    for (const std::string& word : figure.value) bytes += word + '\0';
  } else if constexpr (std::is_same_v<Value, std::array<double, 3>>) {
    for (const double v : figure.value) add(v, bytes);
  } else {
    add(static_cast<double>(figure.value), bytes);
  }
}

template <class Value>
void add_value(const std::optional<Sourced<Value>>& figure, std::string& bytes) {
  add(figure ? 1.0 : 0.0, bytes);
  if (figure) add_value(*figure, bytes);
}

void add_values(std::string& bytes, const auto&... figures) {
  (add_value(figures, bytes), ...);
}

// All but its eye height and the cold it bears: neither says where it goes. Every member has a name
// here, so a figure added to the animal does not compile until it is said which kind it is.
void add_figures(const Species& animal, std::string& bytes) {
  const auto& [name, file, read, leap_height, leap_distance, grip, cling_leap, stand_slope, climbs,
               body, least_opening, dig_depth, dig_length, wade_depth, eyes, crouch, reach, perch,
               climbs_past_upright, hangs, swims, leap_from_water, outdoor_low, young, grown,
               requirements, confirmations, eithers] = animal;
  add_values(bytes, leap_height, leap_distance, grip, cling_leap, stand_slope, climbs, body,
             least_opening, dig_depth, dig_length, wade_depth, crouch, reach, perch,
             climbs_past_upright, hangs, swims, leap_from_water);
  add(young ? 1.0 : 0.0, bytes);
  if (young) {
    const auto& [its_body, its_opening, its_leap, where] = *young;
    add_values(bytes, its_body, its_opening, its_leap);
  }
  const auto [leap, opening, clear_height] = grown.value_or(Grown{-1.0, -1.0, -1.0});
  for (const double v : {leap, opening, clear_height}) add(v, bytes);
}

// Which of them are emptied.
void add_waters(const Model& model, std::string& bytes) {
  for (const Part& part : model.parts)
    if (part.kind == PartKind::water) bytes += part.mesh.empty() ? '0' : '1';
}

}  // namespace

template <class Answer>
std::shared_ptr<const Answer> OnceEach<Answer>::find(const std::string& question,
                                                     const std::function<Answer()>& work) {
  std::unique_lock lock(mutex_);
  while (true) {
    const auto [place, fresh] = known_.try_emplace(question);
    if (fresh) break;
    if (place->second) return place->second;
    changed_.wait(lock);
  }
  lock.unlock();
  std::shared_ptr<const Answer> answer;
  try {
    // Alone, so that this thread takes up no other task that asks the same and waits for itself.
    tbb::this_task_arena::isolate([&] { answer = std::make_shared<const Answer>(work()); });
  } catch (...) {
    lock.lock();
    known_.erase(question);
    changed_.notify_all();
    throw;
  }
  lock.lock();
  known_[question] = answer;
  changed_.notify_all();
  return answer;
}

template class OnceEach<Nodes>;
template class OnceEach<LivingAreas>;
template class OnceEach<OpenSky>;

void keep_answers(Model& model) {
  model.kept = Kept(std::make_shared<KeptAnswers>());
}

bool keeps(const Model& model, const geom::Grid& grid) {
  return model.kept && grid.size() <= kMostKept;
}

std::shared_ptr<const OpenSky> kept_sky(const Model& model) {
  if (!model.body_scene || !keeps(model, model.ground.grid)) return nullptr;
  // Of this scene, which the answer holds on to, so that no other comes to lie where it does.
  std::string question =
      std::to_string(reinterpret_cast<std::uintptr_t>(model.body_scene.get())) + ':';
  add_waters(model, question);
  return model.kept->sky.find(question, [&] { return open_sky(model); });
}

std::string question_of(const Model& model, const UsableGround& ground, const geom::Grid& grid) {
  std::string bytes;
  for (const double v : {grid.x0, grid.y0, grid.cell, static_cast<double>(grid.nx),
                         static_cast<double>(grid.ny), ground.steepest(), ground.wades()})
    add(v, bytes);
  const Body& b = ground.body();
  for (const double v : {b.length, b.width, b.height, b.crouch, b.reach, b.perch,
                         b.climbs_past_upright, b.leap_from_water})
    add(v, bytes);
  for (const bool is : {b.hangs, b.swims, ground.drained()}) bytes += is ? '1' : '0';
  add(static_cast<double>(b.defaults.size()), bytes);
  for (const std::string& key : b.defaults) bytes += key + '\0';
  add_figures(model.site.species, bytes);
  add_waters(model, bytes);
  return bytes;
}

}  // namespace hummock::usable
