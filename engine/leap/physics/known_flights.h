// The flights of one scene that earlier searches have tested, for those that come after.
//
// A scene changes within boxes, one change after another. What was told of a flight is told with
// the count of changes then, and holds as long as no later change lies within a box that the flight
// meets: then nothing it could touch is another (`after`). A scene of trial, which differs within
// `differs` and is dropped again, takes what holds of the first and keeps by itself what meets
// these.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "engine/leap/physics/flight_memo.h"

namespace hummock::leap {

class KnownFlights {
 public:
  using MemoPtr = std::shared_ptr<FlightMemo>;

  // Of a scene of which nothing is known but `elsewhere`, of another that differs within boxes.
  // Flights to the ground are not kept: it is laid anew in every scene. Those from it are, by the
  // spot they leave from.
  KnownFlights(MemoPtr elsewhere, const std::vector<PatchPtr>& patches,
               std::vector<geom::Box3> differs);
  // The same, with what was told by other rules that fly alike (search/links.h): flights are
  // known, the bounds of blocks are not.
  static KnownFlights flights_only(MemoPtr elsewhere, const std::vector<PatchPtr>& patches);

  // The same scene after it changed within boxes: known by the same memo, or by a new one where
  // that holds too much that is past.
  KnownFlights after(const std::vector<PatchPtr>& patches,
                     const std::vector<geom::Box3>& changed) const;
  // A scene of trial that differs from this one within boxes.
  KnownFlights tried(const std::vector<PatchPtr>& patches, std::vector<geom::Box3> differs) const;

  // `flight` with the places of its patches in the scene's list; `from`: the spot it leaves from;
  // `passes`: what holds all of it.
  std::optional<int> find(FlightMemo::Flight flight, const SurfacePiece& from,
                          const geom::Box3& passes) const;
  void keep(FlightMemo::Flight flight, const SurfacePiece& from, const geom::Box3& passes,
            int found) const;

  // As FlightMemo names the patch of this place in the scene's list; 0: ground.
  std::uint32_t number(int patch) const { return numbers_[static_cast<std::size_t>(patch)]; }
  // What is known of blocks; nothing where that is not known.
  LateBlocks* late_blocks() const { return flights_only_ ? nullptr : &elsewhere_->late_blocks(); }

 private:
  struct Change {
    geom::Box3 within;
    std::uint16_t when = 0;  // the first is 1
  };
  void number_all(const std::vector<PatchPtr>& patches);
  bool is_past(std::size_t patches) const;
  void add_change(const geom::Box3& within);
  FlightMemo& memo_for(FlightMemo::Flight& flight, const geom::Box3& passes) const;
  std::uint16_t last_change(const geom::Box3& passes) const;

  MemoPtr elsewhere_, here_;
  std::vector<geom::Box3> differs_;
  std::vector<Change> changes_;
  std::uint16_t now_ = 0;               // changes so far
  std::vector<std::uint32_t> numbers_;  // by patch
  bool flights_only_ = false;
};

}  // namespace hummock::leap
