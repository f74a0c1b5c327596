// What several analyses ask of the same yard, worked out once.
//
// Whoever builds a model and changes nothing of it any more may have it keep its answers
// (`keep_answers`); without that every question is worked out anew, and the answers are the same. A
// question is known by all that it can differ in on one yard: the grid, the animal as UsableGround
// takes it, every figure of its file but those named in kept_answers.cpp, and which waters are
// emptied. The rest of the yard is the model's own: a copy of a model starts without, as it may be
// changed, and whoever changes nothing but the animal or empties waters may hand it on.
//
// Grids of more than kMostKept nodes are not kept: their answers are megabytes each.
//
// May be asked by several threads; who asks what another is working out waits for it. What throws
// is not kept.
#pragma once

#include <condition_variable>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "engine/usable/clear_between.h"
#include "engine/usable/living_nodes.h"
#include "engine/usable/usable_area.h"

namespace hummock::usable {

inline constexpr std::size_t kMostKept = 5000000;  // nodes; numeric, a limit of memory

template <class Answer>
class OnceEach {
 public:
  std::shared_ptr<const Answer> find(const std::string& question,
                                     const std::function<Answer()>& work);

 private:
  std::mutex mutex_;
  std::condition_variable changed_;
  // Nothing yet: some thread works on it.
  std::map<std::string, std::shared_ptr<const Answer>> known_;
};

struct KeptAnswers {
  OnceEach<Nodes> nodes;
  OnceEach<LivingAreas> areas;
  OnceEach<OpenSky> sky;
};

void keep_answers(Model& model);
bool keeps(const Model& model, const geom::Grid& grid);

// That of the model's parts; nothing where it keeps no answers.
std::shared_ptr<const OpenSky> kept_sky(const Model& model);

// Bytes that are the same for the same question only.
std::string question_of(const Model& model, const UsableGround& ground, const geom::Grid& grid);

}  // namespace hummock::usable
