#include "tests/report/written_yard.h"

#include "tests/support/yard.h"

namespace hummock::report {

Site bad_named_site() {
  Site site = test::yard(10.0, 8.0, 1.6, SheetKind::solid);
  site.name = kBadName;
  site.story = "Invented.\nTwo lines.";
  test::add_boulder(site, kHebrew, {3.0, 3.0}, {1.2, 1.0, 0.8}, 3);
  test::add_box(site, "box <b>&amp;</b>", {6.5, 6.9}, {0.8, 0.8, 1.1});
  Requirement room;
  room.what = "space.plan_area_m2";
  room.at_least = 70.0;
  room.source = "invented for the test <i>";
  site.requirements.push_back(room);
  return site;
}

namespace {

void write_into(WrittenYard& yard, const Site& site) {
  yard.model = test::built(site);
  yard.results = run_check(yard.model, yard.options);
  Settings settings;
  settings.season_days = false;
  yard.written = write(yard.folder.path(), yard.model, yard.results, yard.options, settings);
}

}  // namespace

const WrittenYard& whole_yard() {
  static const WrittenYard* yard = [] {
    auto* made = new WrittenYard;
    Site site = bad_named_site();
    Place place;
    place.latitude = 51.0 * geom::kDegree;
    site.place = place;
    Viewing view;
    view.name = "window";
    view.edge = 0;
    view.from = 3.0;
    view.width = 2.0;
    site.viewings.push_back(view);
    made->options.shade_step_minutes = 30.0;
    write_into(*made, site);
    return made;
  }();
  return *yard;
}

const WrittenYard& half_yard() {
  static const WrittenYard* yard = [] {
    auto* made = new WrittenYard;
    made->options.only = {"space", "leap", "openings"};
    write_into(*made, bad_named_site());
    return made;
  }();
  return *yard;
}

}  // namespace hummock::report
