// From the command line's wishes to a session.
#pragma once

#include "viewer/app/session.h"
#include "viewer/app/start/options.h"

namespace hummock::viewer {

// Date, hour and layer, before `begin`. Throws InputError for a date or a layer that is none.
void set_up(Session& session, const Options& options);
// Camera, what to choose and which finding to show, once a model is there. Throws InputError.
void point_camera(Session& session, const Options& options);

}  // namespace hummock::viewer
