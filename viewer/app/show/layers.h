// Map layers on the scene: what to ask for, how to paint it, what the legend says.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/app/session.h"

namespace hummock::viewer {

struct LayerLook {
  std::string title;
  std::string unit;
  Scale scale = Scale::rising;
  double low = 0.0;
  double high = 1.0;
  std::vector<double> ticks;
  // A limit of the species on this scale ("leap height 0.70").
  std::optional<double> limit;
  std::string limit_words;
  std::string says;  // one line: what the figure is
};

// "shade" and "sun_hours" depend on the chosen time or date; the key says for which.
std::string layer_key(const Session& session);
// Chooses a layer ("" = none) and asks for it.
void choose_layer(Session& session, const std::string& name);
// Asks for the layer and the shade curve when what is wanted has changed and rested; cheap.
void ask_for_layer(Session& session);
// Puts what has come into the scene.
void show_layer(Session& session);
// Of the layer now on the scene.
std::optional<LayerLook> layer_look(const Session& session);
// Is what is painted what is asked, on the newest model?
bool layer_current(const Session& session);
// Value under a place; nothing off the layer.
std::optional<double> layer_value(const Session& session, Vec2 at);

// Round numbers from low to high, about `count` of them.
std::vector<double> round_ticks(double low, double high, int count);

}  // namespace hummock::viewer
