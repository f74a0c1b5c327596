#include "engine/ground/lost_detail.h"

#include <fmt/format.h>

#include <cmath>

#include "engine/ground/gaps.h"

namespace hummock::ground {

void LostDetail::compare(geom::Vec2 at, double z) {
  if (outline_.empty() || !geom::covers(laid_, at)) return;
  const double off = std::abs(geom::height_at(laid_, at) - z);
  if (!(off > worst_)) return;
  const bool near =
      geom::contains(outline_, at) || geom::distance_to_edges(outline_, at) <= laid_.grid.cell;
  if (!near) return;
  worst_ = off;
  at_ = at;
}

std::optional<Unseen> LostDetail::unseen(geom::Vec2 origin) const {
  if (!any()) return std::nullopt;
  return Unseen{kSurveyDetail,
                fmt::format("what a cell of {:g} m leaves out of the survey does not matter (up to "
                            "{:.2f} m of height, at {})",
                            laid_.grid.cell, worst_, place_words(at_ + origin)),
                fmt::format("a cell of {:g} m", laid_.grid.cell), "a cell as fine as the survey"};
}

}  // namespace hummock::ground
