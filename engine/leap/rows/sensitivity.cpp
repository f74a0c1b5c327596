#include "engine/leap/rows/sensitivity.h"

#include <algorithm>

#include "engine/leap/search/route.h"

namespace hummock::leap {

std::vector<WayRow> ways(const SearchContext& scene) {
  std::vector<WayRow> rows;
  for (std::size_t p = 0; p < scene.patches->size(); ++p) {
    const Patch& patch = *(*scene.patches)[p];
    const Gained& g = scene.reached->patches[p];
    if (!is_exit(patch) || !g.is()) continue;
    WayRow row;
    row.over = patch.name;
    row.how = way_in_words(patch.exit);
    row.by_hole = patch.exit == ExitKind::house_hole;
    if (g.by.from_patch >= 0) {
      row.from = (*scene.patches)[static_cast<std::size_t>(g.by.from_patch)]->name;
    }
    row.required_leap_m = g.required_leap;
    row.within_leap = g.required_leap <= scene.links.ability.height;
    rows.push_back(row);
  }
  std::stable_sort(rows.begin(), rows.end(), [](const WayRow& a, const WayRow& b) {
    return a.required_leap_m < b.required_leap_m;
  });
  return rows;
}

std::vector<Result::SweepRow> sweep(const Species& species, const Result& result) {
  std::vector<Result::SweepRow> rows;
  const double required_leap = result.escape_leap_m.value_or(result.bounded_below_m);
  for (const double share : kSweepShares) {
    Result::SweepRow row;
    row.leap_height_m = share * species.leap_height.value;
    row.leap_distance_m = share * species.leap_distance.value;
    row.escapes = result.escape_leap_m.has_value() && required_leap <= row.leap_height_m;
    row.margin = required_leap / row.leap_height_m;
    const auto add = [&](const std::string& way) {
      if (std::find(row.ways_out.begin(), row.ways_out.end(), way) == row.ways_out.end()) {
        row.ways_out.push_back(way);
      }
    };
    for (const WayRow& w : result.ways) {
      if (w.required_leap_m <= row.leap_height_m) add("from " + w.from + " over " + w.over);
    }
    for (const ObjectRow& o : result.objects) {
      if (o.effort_to_boundary_m &&
          std::max(o.required_leap_m, *o.effort_to_boundary_m) <= row.leap_height_m) {
        add("from " + o.name + " over " + o.over);
      }
    }
    rows.push_back(row);
  }
  return rows;
}

}  // namespace hummock::leap
