// The flights of one scene that earlier searches have tested, for those that come after.
//
// `elsewhere`: what was found in another scene, of which this one differs within `differs` alone: a
// flight whose box meets none of these is the same in both. What passes them is kept by itself.
#pragma once

#include <algorithm>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "engine/leap/physics/flight_memo.h"

namespace hummock::leap {

class KnownFlights {
 public:
  using MemoPtr = std::shared_ptr<FlightMemo>;

  // Flights from and to the ground are not kept: it is laid anew in every scene.
  KnownFlights(MemoPtr elsewhere, const std::vector<PatchPtr>& patches,
               std::vector<geom::Box3> differs)
      : elsewhere_(std::move(elsewhere)),
        here_(std::make_shared<FlightMemo>()),
        differs_(std::move(differs)) {
    for (const PatchPtr& p : patches) {
      const bool kept = p->kind != PatchKind::ground;
      numbers_.push_back(kept ? elsewhere_->number(p) : 0);
    }
  }

  // `flight` with the places of its patches in the scene's list; `passes`: what holds all of it.
  std::optional<int> find(FlightMemo::Flight flight, const geom::Box3& passes) const {
    return memo_for(flight, passes).find(flight);
  }
  void keep(FlightMemo::Flight flight, const geom::Box3& passes, int found) const {
    memo_for(flight, passes).keep(flight, found);
  }

  const MemoPtr& elsewhere() const { return elsewhere_; }
  const std::vector<geom::Box3>& differs() const { return differs_; }

 private:
  static constexpr double kAbout = 0.01;  // m, far more than chords overlap and rays are off

  FlightMemo& memo_for(FlightMemo::Flight& flight, const geom::Box3& passes) const {
    flight.from_patch = numbers_[flight.from_patch];
    flight.to_patch = numbers_[flight.to_patch];
    const bool other = std::any_of(differs_.begin(), differs_.end(),
                                   [&](const geom::Box3& d) { return near(passes, d); });
    return other ? *here_ : *elsewhere_;
  }

  static bool near(const geom::Box3& a, const geom::Box3& b) {
    return !b.empty() && a.lo.x <= b.hi.x + kAbout && b.lo.x <= a.hi.x + kAbout &&
           a.lo.y <= b.hi.y + kAbout && b.lo.y <= a.hi.y + kAbout && a.lo.z <= b.hi.z + kAbout &&
           b.lo.z <= a.hi.z + kAbout;
  }

  MemoPtr elsewhere_, here_;
  std::vector<geom::Box3> differs_;
  std::vector<std::uint32_t> numbers_;  // by patch
};

}  // namespace hummock::leap
