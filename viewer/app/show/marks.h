// What is drawn over the scene to show a finding or what is chosen: routes, tunnels, gaps, sight
// lines, the reach from an object, outlines.
#pragma once

#include <optional>
#include <string>

#include "engine/analysis/analysis_info.h"
#include "viewer/app/session.h"

namespace hummock::viewer {

void update_marks(Session& session);

// Where a finding or a row of the brief is to be looked for.
using Place = LookAt;
std::optional<Place> place_of_finding(const Session& session, int finding);
std::optional<Place> place_of_row(const Session& session, int row);
// Chooses it, flies there and draws it.
void show_finding(Session& session, int finding);
// After a new check: the chosen finding in its new place, or none.
void find_again(Session& session);
void show_row(Session& session, int row);
void show_nothing(Session& session);

// Of the live answer if there is one, else of the last check.
const leap::Result* leap_result(const Session& session);
bool leap_is_live(const Session& session);
const leap::ObjectRow* leap_row(const Session& session, int object);

Colour verdict_colour(leap::Verdict verdict);

}  // namespace hummock::viewer
