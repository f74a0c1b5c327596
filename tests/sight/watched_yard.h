// A yard that guests look into.
#pragma once

#include "tests/support/yard.h"

namespace hummock::test {

// A yard 10 m wide and 8 m deep with a viewing place on its south side; eyes 0.2 m for the animal.
inline Site watched(SheetKind kind, double from, double width, double stand_off = 0.5,
                    double eye_height = 1.5) {
  Site site = test::yard(10, 8, 3.0, kind);
  Viewing v;
  v.name = "window";
  v.edge = 0;
  v.from = from;
  v.width = width;
  v.stand_off = stand_off;
  v.eye_height = eye_height;
  site.viewings.push_back(v);
  return site;
}

// The same with a pane of glass in solid walls, as wide as the place.
inline Site paned(double from, double width, double stand_off) {
  Site site = watched(SheetKind::solid, 0.0, width, stand_off);
  site.viewings[0].edge = 1;
  site.boundary.outline = {{0, 0}, {from, 0}, {from + width, 0}, {10, 0}, {10, 8}, {0, 8}};
  Section pane = site.boundary.sections[0];
  pane.name = "pane";
  pane.kind = SheetKind::glass;
  pane.edges = {1};
  site.boundary.sections[0].edges = {0, 2, 3, 4, 5};
  site.boundary.sections.push_back(pane);
  return site;
}

}  // namespace hummock::test
