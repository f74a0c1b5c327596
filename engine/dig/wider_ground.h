// Ground beyond the modelled margin, as far as a tunnel may need it.
#pragma once

#include <optional>

#include "engine/model/model.h"

namespace hummock::dig {

// How far from the fence a tunnel that counts may come up, m: what the animal digs, or the length a
// requirement asks for. 0 = it does not matter.
double reach_that_counts(const Model& model);

// The finished ground as it was before any was lost at the fence (BuildOptions::scour) and without
// snow, on this grid: the model's own or that of on_wider_ground. Nothing where none was lost. The
// rock lies under this ground: losing soil moves no rock.
std::optional<geom::Heightfield> before_loss(const Model& model, const geom::Grid& grid);

// The model on wider ground when its margin is shorter than that; nothing when it is wide enough.
// What was modelled stays, node for node; beyond it lies what the site file says lies there (a
// survey that ends nearer is carried on at its nearest height, as everywhere). Throws InputError
// when the ground would be too large.
std::optional<Model> on_wider_ground(const Model& model);

}  // namespace hummock::dig
