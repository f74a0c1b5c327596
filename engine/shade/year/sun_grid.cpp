#include "engine/shade/year/sun_grid.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/sun/direction.h"

namespace hummock::shade {
namespace {

using geom::kPi;

// Rows by number, 0 the equator; and the (broken) number of a declination.
double declination_of(int row) {
  const double level = kRowsApart * std::abs(row);
  const double beyond = std::max(0.0, level - kNearSolstice) / kRowsApart;
  return std::copysign(std::min(level, kNearSolstice) + beyond * kRowsNearSolstice, row);
}
double row_of(double declination) {
  const double size = std::abs(declination);
  const double beyond = std::max(0.0, size - kNearSolstice) / kRowsNearSolstice;
  return std::copysign(std::min(size, kNearSolstice) / kRowsApart + beyond, declination);
}

double spacing_along(double step_minutes) {
  const double asked = step_minutes / 1440.0 * 2.0 * kPi;
  const double wanted = std::clamp(asked, kRowsApart, kFarthestAlong);
  return 2.0 * kPi / std::round(2.0 * kPi / wanted);
}

// Suns along one declination, by rising hour angle.
class Row {
 public:
  Row(double latitude, int number, double spacing)
      : declination_(declination_of(number)),
        sine_(std::sin(latitude) * std::sin(declination_)),
        cosine_(std::cos(latitude) * std::cos(declination_)) {
    const double golden = 0.5 * (std::sqrt(5.0) - 1.0);
    const double first = spacing * (number * golden - std::floor(number * golden));
    const double up = meets(kLowSuns.front());
    round_ = up >= kPi;
    if (round_) {
      const long count = std::lround(2.0 * kPi / spacing);
      for (long k = 0; k < count; ++k)
        angles_.push_back(-kPi + first + spacing * static_cast<double>(k));
    } else if (up > 0.0) {
      fill(first, spacing);
    }
    hours_.resize(angles_.size());
  }

  bool empty() const { return angles_.empty(); }

  // Splits hours between the suns about an hour angle.
  void add(double hour_angle, SunHours hours) {
    const auto after = std::upper_bound(angles_.begin(), angles_.end(), hour_angle);
    auto hi = static_cast<std::size_t>(after - angles_.begin());
    if (!round_ && (hi == 0 || hi == angles_.size())) {
      give(hi == 0 ? 0 : hi - 1, hours, 1.0);
      return;
    }
    const std::size_t lo = (hi + angles_.size() - 1) % angles_.size();
    hi %= angles_.size();
    const auto turned = [](double a) { return a < 0.0 ? a + 2.0 * kPi : a; };
    const double part = turned(hour_angle - angles_[lo]) / turned(angles_[hi] - angles_[lo]);
    give(lo, hours, 1.0 - part);
    give(hi, hours, part);
  }

  void put(const Place& place, std::vector<YearSun>& suns) {
    for (std::size_t k = 0; k < angles_.size(); ++k) {
      if (hours_[k].empty()) continue;
      const Horizontal at = horizontal({declination_, angles_[k]}, place.latitude);
      suns.push_back(
          {sun_ray(sun::direction(place, at.azimuth, at.elevation)), at.azimuth, at.elevation, {}});
      for (const auto& [key, hours] : hours_[k])
        suns.back().hours.push_back({key.first, key.second, hours});
    }
  }

 private:
  // Hour angle at which the row comes down to an elevation; 0 where it is below it all the time, π
  // where above.
  double meets(double elevation) const {
    const double above = std::sin(elevation) - sine_;
    if (above >= cosine_) return 0.0;
    return above <= -cosine_ ? kPi : std::acos(above / cosine_);
  }

  void fill(double first, double spacing) {
    constexpr double kTooNear = 0.2;  // of the spacing
    double within = kPi;
    for (const double elevation : kLowSuns) {
      const double at = meets(elevation);
      if (at <= 0.0 || at >= kPi) continue;
      angles_.push_back(-at);
      angles_.push_back(at);
      within = std::min(within, at);
    }
    within -= kTooNear * spacing;
    for (double k = std::ceil((-within - first) / spacing); first + k * spacing < within; k += 1.0)
      angles_.push_back(first + k * spacing);
    std::sort(angles_.begin(), angles_.end());
  }

  void give(std::size_t k, const SunHours& hours, double share) {
    if (share > 0.0) hours_[k][{hours.leaves, hours.month}] += share * hours.hours;
  }

  double declination_, sine_, cosine_;
  bool round_ = false;  // up all day
  std::vector<double> angles_;
  std::vector<std::map<std::pair<std::size_t, std::size_t>, double>> hours_;
};

}  // namespace

Equatorial equatorial(const Horizontal& at, double latitude) {
  const double north = std::cos(at.elevation) * std::cos(at.azimuth);
  const double east = std::cos(at.elevation) * std::sin(at.azimuth);
  const double up = std::sin(at.elevation);
  const double s = std::sin(latitude), c = std::cos(latitude);
  const double pole = s * up + c * north;
  const double meridian = c * up - s * north;
  return {std::atan2(pole, std::hypot(meridian, east)), std::atan2(-east, meridian)};
}

Horizontal horizontal(const Equatorial& at, double latitude) {
  const double s = std::sin(latitude), c = std::cos(latitude);
  const double pole = std::sin(at.declination);
  const double meridian = std::cos(at.declination) * std::cos(at.hour_angle);
  const double east = -std::cos(at.declination) * std::sin(at.hour_angle);
  const double north = c * pole - s * meridian;
  const double azimuth = std::atan2(east, north);
  return {azimuth < 0.0 ? azimuth + 2.0 * kPi : azimuth,
          std::atan2(s * pole + c * meridian, std::hypot(north, east))};
}

YearSuns suns_on_grid(const Place& place, const std::vector<YearStep>& steps, double step_minutes) {
  const double spacing = spacing_along(step_minutes);
  std::map<int, Row> rows;
  YearSuns out;
  for (const YearStep& s : steps) {
    const Equatorial at = equatorial({s.sun.azimuth, s.sun.elevation}, place.latitude);
    const double row = row_of(at.declination);
    const int lower = static_cast<int>(std::floor(row));
    std::array<Row*, 2> about{};
    for (int k = 0; k < 2; ++k)
      about[static_cast<std::size_t>(k)] =
          &rows.try_emplace(lower + k, place.latitude, lower + k, spacing).first->second;
    double part = row - lower;
    if (about[0]->empty() && about[1]->empty()) {
      out.suns.push_back({sun_ray(place, s.sun), s.sun.azimuth, s.sun.elevation, {s.hours}});
      continue;
    }
    if (about[0]->empty()) part = 1.0;
    if (about[1]->empty()) part = 0.0;
    SunHours hours = s.hours;
    hours.hours = (1.0 - part) * s.hours.hours;
    if (part < 1.0) about[0]->add(at.hour_angle, hours);
    hours.hours = part * s.hours.hours;
    if (part > 0.0) about[1]->add(at.hour_angle, hours);
  }
  for (auto& [number, row] : rows) row.put(place, out.suns);
  return out;
}

}  // namespace hummock::shade
