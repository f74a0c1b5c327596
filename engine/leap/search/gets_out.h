// Does an animal of these figures get out, and nothing else: for what an answer rests on.
//
// The same places, links and search as analyse's, up to the animal's own leap, without rows. Asked
// again and again of one site, it keeps the places that a figure does not bear. A copy shares them:
// two may be asked side by side.
#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <utility>
#include <vector>

#include "engine/leap/leap.h"
#include "engine/leap/physics/known_flights.h"
#include "engine/leap/places/site_places.h"
#include "engine/leap/search/links.h"

namespace hummock::leap {

enum class GetsOut { no, yes, unknown };

// How the yard is taken.
struct Circumstances {
  bool plantings_bear = false;  // as in PlaceRules
  bool frozen = false;          // its waters are walked on; else as the settings say
  bool crowns_bear = false;     // as in PlaceRules
  bool walls_rough = false;     // as in PlaceRules
  bool helped_indoors = false;  // as in PlaceRules
  bool digs = false;            // beneath what parts the ground, as far as its figures go
  bool drained = false;         // as in PlaceRules
};

// Would these rules tell the same places of the model's ground? False where that is not plain.
bool same_ground_places(const Model& model, const PlaceRules& a, const PlaceRules& b);

// The flights tested for one yard's questions: what is asked of differs by a figure or two, and
// most flights of one are those of another. Any number of threads may ask at once.
class AskedFlights {
 public:
  // What is known to animals that fly alike (links.h).
  KnownFlights of(const LinkRules& links, const std::vector<PatchPtr>& patches);

 private:
  static constexpr std::size_t kPartKept = 8;   // of what a memo may keep; numeric, of memory
  static constexpr std::size_t kMostMemos = 2;  // the oldest is dropped; numeric, of memory
  struct Alike {
    LinkRules links;
    KnownFlights::MemoPtr memo;
  };
  std::mutex lock_;
  std::vector<Alike> memos_;
};

class EscapeQuestion {
 public:
  // Keeps a reference to the model; its own species is not asked.
  EscapeQuestion(const Model& model, const Settings& settings)
      : model_(model), settings_(settings) {}

  GetsOut ask(const Species& species, const Circumstances& yard, const Progress& progress = {});

 private:
  void find_places(const PlaceRules& rules);
  void find_ground(const PlaceRules& rules, const std::optional<PlaceRules>& before);

  // Ground as some rules tell it.
  struct Ground {
    PlaceRules rules;
    GroundPlaces places;
  };

  const Model& model_;
  Settings settings_;
  std::optional<PlaceRules> rules_;  // of the places kept
  SitePlaces places_;
  std::optional<Ground> other_;  // what the ground was before: most questions come back to it
  std::shared_ptr<ToldParts> told_ = std::make_shared<ToldParts>();
  std::shared_ptr<AskedFlights> flights_ = std::make_shared<AskedFlights>();
};

}  // namespace hummock::leap
