// Apparent topocentric sun, rise and set, and the clock of a place.
//
// Position. Earth's heliocentric and barycentric place from ERFA (Epv00: VSOP2000 shortened, good
// to 5e-6 degrees between 1900 and 2100), light time, annual aberration, precession-nutation
// IAU 2000B, Greenwich apparent sidereal time, then the parallax of the place on the WGS84
// ellipsoid. Diurnal aberration (at most 0.0001 degrees) is left out, as in NREL's algorithm.
// UT1 is taken to be UTC (off by at most 0.9 s, 0.004 degrees of hour angle) and TT = UT1 + ΔT with
// ΔT by the polynomials of Espenak & Meeus (NASA/TP-2006-214141), unless the caller gives one.
// Error of the geometric place: within 0.0003 degrees of NREL SPA (Reda & Andreas 2004), plus what
// the clock's assumption costs.
//
// Refraction. Saemundsson's formula as used by NREL SPA, scaled by pressure and temperature; it is
// applied while the sun's upper limb can be seen (geometric elevation > −0.8333 degrees) and is
// zero below. Real refraction within 2 degrees of the horizon varies by tenths of a degree.
//
// Rise and set. The geocentric altitude of the sun's centre passes −50′ (34′ refraction, 16′
// semidiameter): the definition of almanacs. The observer's height above the surroundings and the
// surroundings themselves are not in it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/site/site.h"
#include "geometry/vec.h"

namespace hummock::sun {

struct Date {
  int year = 2000, month = 1, day = 1;
  friend bool operator==(const Date&, const Date&) = default;
};
// Parses YYYY-MM-DD, years 1900..2100. Throws InputError with `where`.
Date parse_date(const std::string& text, const Where& where);
// "2026-06-21"
std::string text(const Date& date);
// Days from 2000-01-01 to `date` (proleptic Gregorian), and back.
int day_number(const Date& date);
Date date_of(int day_number);
// Is `date` within the season, both ends included? A season may wrap over the new year.
bool within(const Season& season, const Date& date);

// An instant: UT1 taken as UTC, as days since 2000-01-01 00:00.
struct Instant {
  double ut_days = 0.0;
};

// Throws InputError (with place.where) for a latitude, longitude, elevation, pressure, temperature
// or time zone that cannot be.
void check_place(const Place& place);

struct Position {
  Instant when;
  double azimuth = 0.0;         // rad clockwise from true north, 0..2π
  double elevation = 0.0;       // rad, apparent (with refraction)
  double true_elevation = 0.0;  // rad, without refraction
  double distance_au = 1.0;
  // Unit vector to the apparent sun in the model's axes (x, y turned by grid_north, z up).
  Vec3 towards;
};
Position position(const Place& place, Instant when);
Position position(const Place& place, Instant when, double delta_t_s);

// TT − UT1 in seconds by Espenak & Meeus, years 1800..2150.
double delta_t(Instant when);
// Refraction in radians at a geometric elevation; pressure in hPa, temperature in °C.
double refraction(double true_elevation, double pressure, double temperature);
// Pressure in hPa: the place's own, or that of the standard atmosphere at its elevation.
double pressure_of(const Place& place);

// Positions at many instants of a span: the same as `position` within 1e-7 rad, about 50 times as
// fast. The slow parts (the sun's place among the stars) are computed every six hours and
// interpolated by cubics.
class Track {
 public:
  Track(const Place& place, Instant from, Instant to);
  Position at(Instant when) const;
  // Geocentric altitude of the centre and hour angle (−π..π), rad: what rise and transit go by.
  double altitude(Instant when) const;
  double hour_angle(Instant when) const;

 private:
  struct Node {
    Vec3 sun;        // au, true equator and equinox of date
    double equinox;  // equation of the equinoxes, rad
  };
  Node node_at(Instant when) const;
  Place place_;
  double from_ = 0.0;
  std::vector<Node> nodes_;
};

enum class DayKind { rises_and_sets, up_all_day, down_all_day };
struct RiseSet {
  DayKind kind = DayKind::rises_and_sets;
  // Nothing when it does not happen within the day. Sunset may come before sunrise when the clock
  // is far from solar time or the sun sets after midnight.
  std::optional<Instant> sunrise, sunset;
  Instant transit;
  double day_length_h = 0;  // hours with the sun up between the day's two midnights
};
// The civil day `date` of the place's own clock.
RiseSet rise_set(const Place& place, Date date);
// The spans within that day in which the sun is up, in order (one, seldom two; none in polar
// night).
struct Span {
  Instant from, to;
};
std::vector<Span> up_spans(const Place& place, Date date);

// The place with a clock of its own: mean solar time of its longitude, to the minute.
Place by_mean_noon(Place place);
// Local clock of an instant: "2026-06-21 13:40 +01:00", and "13:40" (rounded to the minute).
std::string clock(const Place& place, Instant when);
std::string clock_short(const Place& place, Instant when);
// The same as ISO 8601: "2026-06-21T13:40+01:00".
std::string iso(const Place& place, Instant when);
// The instant at which the place's clock shows `clock_hours` on `date`. A time that occurs twice is
// taken the first time; one that is skipped is taken as if the clock had not been put forward yet.
Instant instant(const Place& place, Date date, double clock_hours);
Date local_date(const Place& place, Instant when);
// Hours of the place's clock ahead of UTC.
double utc_offset_h(const Place& place, Instant when);
// "2003-10-17T12:30:30-07:00", seconds and zone optional ("Z" too; a blank may stand for the T);
// without a zone the place's clock is meant. Throws InputError with `where`.
Instant parse_time(const std::string& text, const Place& place, const Where& where);

}  // namespace hummock::sun
