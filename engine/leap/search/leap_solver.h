// The same answer as leap::analyse, kept ready to be asked again after one thing has moved.
//
// What an update redoes: the squares of ground under the thing's old and new place, the thing's
// own places and those of things it stands over, under or beside, the exits' clear heights, the
// search, and of the rows what they rest on: the leap from a thing to the ways out where its tested
// flights pass through either place, its thing changed, or any way out did (those that things make
// beyond the boundary too); the way out over other things always. All the rest is
// kept. The pieces kept are the ones a full answer would make again, so update(m, k) equals
// LeapSolver(m).result() exactly (tested); only the ground's split by walking is always redone.
#pragma once

#include <memory>
#include <vector>

#include "engine/leap/leap.h"

namespace hummock::leap {

class LeapSolver {
 public:
  // The model is not kept: each call gets the one it is about.
  explicit LeapSolver(const Model& model, const Settings& settings = {},
                      const Progress& progress = {});
  ~LeapSolver();
  LeapSolver(LeapSolver&&) noexcept;
  LeapSolver& operator=(LeapSolver&&) noexcept;

  const Result& result() const;

  // `model` is the same site with `object` (index into site.objects) moved, turned, lifted,
  // reshaped or given another surface; nothing else may differ. Falls back on a full answer when
  // the list of parts is not the same.
  const Result& update(const Model& model, int object, const Progress& progress = {});

  // Demand maps from what was found (leap.h tells what they hold).
  geom::Raster ground_required_leap(const Model& model) const;
  std::map<std::string, std::vector<float>> surface_required_leap(const Model& model) const;

  // Seconds each stage of the last answer took, in order.
  const std::vector<std::pair<std::string, double>>& stages() const;

 private:
  struct Inner;
  std::unique_ptr<Inner> inner_;
};

}  // namespace hummock::leap
