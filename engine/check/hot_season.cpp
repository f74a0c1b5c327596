#include "engine/check/hot_season.h"

#include <algorithm>
#include <array>
#include <cstdlib>

#include "engine/sun/highest_noon.h"

namespace hummock {
namespace {

// Which of the plants that fall bare stand so.
std::vector<bool> bare_plants(const Site& site, const sun::Date& date) {
  std::vector<bool> bare;
  const auto look = [&](const std::optional<Season>& season) {
    if (season) bare.push_back(sun::within(*season, date));
  };
  for (const Object& thing : site.objects)
    if (thing.crown) look(thing.crown->bare);
  for (const Planting& planting : site.plantings) look(planting.bare);
  for (const Surrounding& thing : site.surroundings) look(thing.bare);
  return bare;
}

// The highest noons of one summer as day numbers, the first and the last.
std::array<int, 2> noons(const Place& place, int year) {
  const auto days = sun::highest_noons(place.latitude, place.longitude, year);
  const int first = sun::day_number(days[0]), second = sun::day_number(days[1]);
  if (place.latitude >= 0.0 || first == second) return {first, second};
  // The second of this year and the first of the next, about one December.
  return {second, sun::day_number({days[0].year + 1, days[0].month, days[0].day})};
}

bool bares_more(const std::vector<bool>& day, const std::vector<bool>& design) {
  for (std::size_t k = 0; k < day.size(); ++k)
    if (day[k] && !design[k]) return true;
  return false;
}

}  // namespace

int bare_on(const Site& site, const sun::Date& date) {
  const std::vector<bool> bare = bare_plants(site, date);
  return static_cast<int>(std::count(bare.begin(), bare.end(), true));
}

std::vector<sun::Date> other_hot_days(const Site& site, const sun::Date& design) {
  if (!site.place) return {};
  const std::vector<bool> known = bare_plants(site, design);
  if (known.empty()) return {};
  const auto noon = noons(*site.place, design.year);
  const auto off = [&](int day) {
    return std::min(std::abs(day - noon[0]), std::abs(day - noon[1]));
  };
  std::vector<std::vector<bool>> spells;
  std::vector<int> days;
  for (int day = noon[0] - kBeforeNoon; day <= noon[1] + kAfterNoon; ++day) {
    const std::vector<bool> bare = bare_plants(site, sun::date_of(day));
    if (!bares_more(bare, known)) continue;
    const auto at = std::find(spells.begin(), spells.end(), bare);
    if (at == spells.end()) {
      spells.push_back(bare);
      days.push_back(day);
      continue;
    }
    int& nearest = days[static_cast<std::size_t>(at - spells.begin())];
    if (off(day) < off(nearest)) nearest = day;
  }
  std::sort(days.begin(), days.end());
  std::vector<sun::Date> out;
  out.reserve(days.size());
  for (const int day : days) out.push_back(sun::date_of(day));
  return out;
}

}  // namespace hummock
