// The boundary divided into bays: one panel's width between two posts.
#pragma once

#include <vector>

#include "engine/model/model.h"

namespace hummock {

// A stretch of model edge `edge`, `from`..`to` metres along it.
struct Bay {
  int edge = 0;
  int section = 0;
  double from = 0.0, to = 0.0;
  int gate = -1;  // index into site.boundary.gates
};

// All bays in order round the outline. Each gate is a bay; the stretches between gates and corners
// are divided evenly into the fewest panels no longer than the section's `panel`. Throws InputError
// for a gate that leaves its edge or meets another, and for a drain that leaves its edge.
std::vector<Bay> divide_boundary(const Model& model);

// The section that covers a file edge; -1 = none.
int section_of(const Boundary& boundary, int file_edge);

// Where `from` metres along a file edge begins on the model's edge: the outline may have been
// turned round, which swaps an edge's ends. `width` is the thing's own width.
double along_model_edge(const Model& model, int edge, double from, double width);

// The model's edge for a file's edge.
int model_edge(const Model& model, int file_edge);

Vec2 on_edge(const geom::Polygon& outline, int edge, double along);
double edge_length(const geom::Polygon& outline, int edge);

}  // namespace hummock
