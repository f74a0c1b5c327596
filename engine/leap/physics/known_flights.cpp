#include "engine/leap/physics/known_flights.h"

#include <algorithm>
#include <limits>

namespace hummock::leap {

using geom::Box3;

namespace {

constexpr double kAbout = 0.01;  // m, far more than chords overlap and rays are off

bool near(const Box3& a, const Box3& b) {
  return !b.empty() && a.lo.x <= b.hi.x + kAbout && b.lo.x <= a.hi.x + kAbout &&
         a.lo.y <= b.hi.y + kAbout && b.lo.y <= a.hi.y + kAbout && a.lo.z <= b.hi.z + kAbout &&
         b.lo.z <= a.hi.z + kAbout;
}

GroundFlights::Flight of_ground(const FlightMemo::Flight& f, const SurfacePiece& from) {
  return {GroundFlights::mark_of(from), f.to_patch, f.to, f.rung, f.steeper};
}

}  // namespace

KnownFlights::KnownFlights(MemoPtr elsewhere, const std::vector<PatchPtr>& patches,
                           std::vector<Box3> differs)
    : elsewhere_(std::move(elsewhere)),
      here_(std::make_shared<FlightMemo>()),
      differs_(std::move(differs)) {
  number_all(patches);
}

KnownFlights KnownFlights::flights_only(MemoPtr elsewhere, const std::vector<PatchPtr>& patches) {
  KnownFlights known{std::move(elsewhere), patches, {}};
  known.flights_only_ = true;
  return known;
}

void KnownFlights::number_all(const std::vector<PatchPtr>& patches) {
  numbers_.clear();
  for (const PatchPtr& p : patches) {
    const bool kept = p->kind != PatchKind::ground;
    numbers_.push_back(kept ? elsewhere_->number(p) : 0);
  }
}

bool KnownFlights::is_past(std::size_t patches) const {
  constexpr std::size_t kMostOld = 64;
  constexpr int kMostChanges = std::numeric_limits<std::uint16_t>::max() - 1;
  return now_ >= kMostChanges || elsewhere_->numbered() > kMostOld * patches || elsewhere_->full();
}

// Where boxes are many the first two are taken for one, changed with the later: what holds then
// holds of each.
void KnownFlights::add_change(const Box3& within) {
  constexpr std::size_t kMostPlaces = 64;
  if (within.empty()) return;
  if (changes_.size() >= kMostPlaces) {
    changes_[1].within.add(changes_[0].within);
    changes_.erase(changes_.begin());
  }
  changes_.push_back({within, now_});
}

KnownFlights KnownFlights::after(const std::vector<PatchPtr>& patches,
                                 const std::vector<Box3>& changed) const {
  if (is_past(patches.size())) return {std::make_shared<FlightMemo>(), patches, {}};
  KnownFlights next{elsewhere_, patches, differs_};
  next.changes_ = changes_;
  next.now_ = static_cast<std::uint16_t>(now_ + 1);
  for (const Box3& box : changed) next.add_change(box);
  return next;
}

KnownFlights KnownFlights::tried(const std::vector<PatchPtr>& patches,
                                 std::vector<Box3> differs) const {
  differs.insert(differs.end(), differs_.begin(), differs_.end());
  KnownFlights next{elsewhere_, patches, std::move(differs)};
  next.changes_ = changes_;
  next.now_ = now_;
  return next;
}

FlightMemo& KnownFlights::memo_for(FlightMemo::Flight& flight, const Box3& passes) const {
  flight.from_patch = numbers_[flight.from_patch];
  flight.to_patch = numbers_[flight.to_patch];
  const bool other =
      std::any_of(differs_.begin(), differs_.end(), [&](const Box3& d) { return near(passes, d); });
  return other ? *here_ : *elsewhere_;
}

std::uint16_t KnownFlights::last_change(const Box3& passes) const {
  std::uint16_t last = 0;
  for (const Change& c : changes_)
    if (c.when > last && near(passes, c.within)) last = c.when;
  return last;
}

std::optional<int> KnownFlights::find(FlightMemo::Flight flight, const SurfacePiece& from,
                                      const Box3& passes) const {
  FlightMemo& memo = memo_for(flight, passes);
  const std::uint16_t since = last_change(passes);
  return flight.from_patch == 0 ? memo.from_ground().find(of_ground(flight, from), since)
                                : memo.find(flight, since);
}

void KnownFlights::keep(FlightMemo::Flight flight, const SurfacePiece& from, const Box3& passes,
                        int found) const {
  FlightMemo& memo = memo_for(flight, passes);
  if (flight.from_patch == 0)
    memo.from_ground().keep(of_ground(flight, from), found, now_);
  else
    memo.keep(flight, found, now_);
}

}  // namespace hummock::leap
