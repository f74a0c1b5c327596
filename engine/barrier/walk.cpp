#include "engine/barrier/walk.h"

#include <cassert>

namespace hummock::barrier {

namespace {

bool joins(const Stretch& s, const Stretch& r, Join join) {
  if (s.side != r.side || geom::distance(s.b, r.a) > kSameLine) return false;
  return join == Join::side ||
         (s.kind == r.kind && s.panel == r.panel && s.gateway == r.gateway && s.part == r.part);
}

void append(Run& run, const Stretch& next) {
  run.whole.b = next.b;
  run.whole.foot_b = next.foot_b;
  run.whole.top_b = next.top_b;
  run.pieces.push_back(next);
}

}  // namespace

std::vector<Run> runs_of(const Chain& chain, Join join, Look (*look)(const Stretch&)) {
  std::vector<Run> runs;
  for (const Stretch& s : chain.stretches) {
    if (look(s) != Look::walked) continue;
    if (!runs.empty() && joins(runs.back().pieces.back(), s, join)) {
      append(runs.back(), s);
    } else {
      runs.push_back({s, {s}});
    }
  }
  return runs;
}

const Stretch& piece_at(const Run& run, Vec2 p) {
  assert(!run.pieces.empty());
  const Vec2 along = run.whole.b - run.whole.a;
  for (const Stretch& s : run.pieces) {
    if (dot(along, p - s.b) <= 0.0) return s;
  }
  return run.pieces.back();
}

const char* to_string(Look look) {
  switch (look) {
    case Look::walked:
      return "walked";
    case Look::told_elsewhere:
      return "told elsewhere";
    case Look::in_the_air:
      return "in the air";
    case Look::nothing_stands:
      return "nothing stands there";
    case Look::built_down:
      return "built down into the ground";
    case Look::sill_is_drawn:
      return "its sill is drawn";
    case Look::not_lived_in:
      return "not lived in";
    case Look::not_counted:
      return "not counted";
  }
  return "";
}

}  // namespace hummock::barrier
