// The sun over the scene: the chosen day and hour of the place's own clock.
#pragma once

#include <optional>
#include <string>

#include "engine/sun/sun.h"
#include "viewer/app/session.h"

namespace hummock::viewer {

sun::Date date_of(const DayTime& time);
int days_in_year(int year);
std::string date_words(const DayTime& time);  // "21 June"
std::string hour_words(double hour);          // "13:40"

// Nothing when the site has no [place].
std::optional<sun::Position> sun_now(const Session& session);
// Sets the light of the scene; without a place, a light from the south-west for the eye alone.
void update_sun(Session& session);
void set_hour(Session& session, double hour);
void set_day(Session& session, int day);
// Moves the clock on while playing; true when something moves.
bool play(Session& session, double seconds);

}  // namespace hummock::viewer
