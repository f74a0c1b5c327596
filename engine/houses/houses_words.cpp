// The houses in a reviewer's words, and what their figures are.
#include "engine/houses/houses_json.h"

namespace hummock::houses {

void add_findings(const Result& r, const Model&, FindingList& list) {
  for (const std::string& fault : r.faults) {
    list.push_back({Severity::short_of, "houses", "", fault, "draw a house", std::nullopt});
  }
  for (const auto& [a, b] : r.shared_plans) {
    const std::string &one = r.list[static_cast<std::size_t>(a)].name,
                      &other = r.list[static_cast<std::size_t>(b)].name;
    list.push_back(
        {Severity::look, "houses", one,
         quoted(one) + " and " + quoted(other) +
             " are drawn over one another: what comes in by a way of the one is taken to "
             "go out by any way of the other",
         "draw them wall to wall where a wall parts them", std::nullopt});
  }
  for (const Row& row : r.list) {
    for (const std::string& fault : row.faults) {
      list.push_back({Severity::short_of, "houses", row.name, quoted(row.name) + ": " + fault, "",
                      std::nullopt});
    }
  }
}

const FigureRows& figure_rows() {
  static const FigureRows rows{
      {"houses.count", "houses", "", 0, Better::neither, "Indoor quarters drawn."},
      {"houses.floor_m2", "floor of all houses", "m²", 1, Better::more,
       "Area of the drawn outlines; wall thickness is not taken off."},
      {"houses.volume_m3", "volume of all houses", "m³", 1, Better::more, "Floor times height."},
      {"houses.hides", "hides indoors", "", 0, Better::more, "Hides the houses are said to have."},
      {"houses.climb_places", "places to climb indoors", "", 0, Better::more,
       "Climbing places the houses are said to have."},
      {"houses.hours_below_low", "hours of the climate file too cold outdoors", "h", 0,
       Better::less, "Hours below the species' outdoor limit, as they stand in the climate file."},
      {"houses.outdoor_low_c", "coldest air it bears outdoors", "°C", 1, Better::neither,
       "The species' outdoor limit."},
      {"houses.coldest_c", "coldest hour of the climate file", "°C", 1, Better::neither,
       "Least temperature in the climate file."},
      {"houses.height_m", "height of the lowest house", "m", 2, Better::more,
       "Least clear height of the houses."},
      {"houses.low_c", "coldest a house gets", "°C", 1, Better::more,
       "Least of the low temperatures the houses are said to keep."},
      {"houses.high_c", "warmest a house gets", "°C", 1, Better::less,
       "Greatest of the high temperatures the houses are said to keep."},
      {"houses.unguarded", "houses with an unguarded vent", "", 0, Better::less,
       "Houses with a vent that passes a ball as large as the animal's head."},
      {"houses.light_shortest_h", "shortest day of light indoors", "h", 1, Better::more,
       "Hours the lamps are on on the shortest day, by the timer drawn (hummock light), of the "
       "house "
       "with the fewest; no value while one house has no light drawn, or the site no place."},
      {"houses.light_longest_h", "longest day of light indoors", "h", 1, Better::less,
       "Hours the lamps are on on the longest day, by the timer drawn, of the house with the most; "
       "no "
       "value while one house has no light drawn, or the site no place."},
      {"houses.unlit", "houses whose light is not known", "", 0, Better::less,
       "Houses without a table `light`, or on a site without a place."}};
  return rows;
}

}  // namespace hummock::houses
