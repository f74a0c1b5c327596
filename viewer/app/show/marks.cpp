#include "viewer/app/show/marks.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "engine/leap/physics/effort.h"
#include "engine/site/viewing_line.h"
#include "viewer/app/show/views.h"
#include "viewer/scene/tone.h"
#include "viewer/work/merge_results.h"

namespace hummock::viewer {
namespace {

std::string metres(double v, int places = 2) {
  char text[32];
  std::snprintf(text, sizeof text, "%.*f m", places, v);
  return text;
}

struct Marks {
  Session& s;
  const Model& m;
  std::vector<Stroke> strokes;
  std::vector<Drawable> veils;

  void ring(Vec3 centre, double radius, Colour colour, bool upright = false, Vec2 along = {1, 0}) {
    Stroke stroke;
    stroke.colour = colour;
    stroke.width = 3.0;
    for (int k = 0; k <= 48; ++k) {
      const double a = 2.0 * geom::kPi * k / 48.0;
      const double c = radius * std::cos(a);
      const double h = radius * std::sin(a);
      stroke.points.push_back(upright ? centre + Vec3{along.x * c, along.y * c, h}
                                      : centre + Vec3{c, h, 0.0});
    }
    strokes.push_back(std::move(stroke));
  }
  void pin(Vec3 at, Colour colour, const std::string& words) {
    Stroke stroke;
    stroke.colour = colour;
    stroke.points = {at + Vec3{0, 0, 1.4}, at + Vec3{0, 0, 0.05}};
    stroke.arrow = true;
    stroke.width = 3.0;
    strokes.push_back(std::move(stroke));
    if (!words.empty()) s.labels.push_back({at + Vec3{0, 0, 1.5}, words, colour});
  }
  void route(const leap::Result& leap);
  void reach(const leap::ObjectRow& row);
  void tunnel(const dig::Station& station);
  void gap(const openings::Opening& opening);
  void sight_line(Vec3 to);
  void outline_chosen();
  void finding(const std::string& analysis, const std::string& thing, std::optional<Vec3> at);
};

void Marks::route(const leap::Result& leap) {
  for (const leap::Step& step : leap.route) {
    Stroke stroke;
    stroke.points = step.arc.size() > 1 ? step.arc : std::vector<Vec3>{step.from, step.to};
    for (Vec3& p : stroke.points) p.z += 0.02;
    stroke.colour = step.kind == leap::StepKind::leap    ? tone::short_of()
                    : step.kind == leap::StepKind::climb ? tone::tight()
                                                         : tone::ink();
    stroke.width = step.kind == leap::StepKind::leap ? 4.0 : 2.5;
    stroke.dash = step.kind == leap::StepKind::walk ? 0.15 : 0.0;
    stroke.arrow = step.kind != leap::StepKind::walk;
    if (step.kind == leap::StepKind::leap) {
      const auto top = std::max_element(stroke.points.begin(), stroke.points.end(),
                                        [](Vec3 a, Vec3 b) { return a.z < b.z; });
      s.labels.push_back({*top + Vec3{0, 0, 0.12}, metres(step.effort_m), tone::short_of()});
    }
    strokes.push_back(std::move(stroke));
  }
}

// The parabola of safety of a full leap from the object's top, down to a little below the ground.
void Marks::reach(const leap::ObjectRow& row) {
  const leap::Ability ability = leap::ability_of(m.site.species);
  const double low = -row.top_m - 0.3;
  const double far = leap::envelope_distance(low, ability.height, ability.stretch);
  if (!(far > 0.0)) return;
  constexpr int kCorners = 48;
  constexpr int kRings = 14;
  geom::Mesh mesh;
  const auto at = [&](int i, int j) {
    const double r = far * j / kRings;
    const double a = 2.0 * geom::kPi * i / kCorners;
    return row.top + Vec3{r * std::cos(a), r * std::sin(a),
                          leap::envelope_height(r, ability.height, ability.stretch)};
  };
  for (int j = 0; j < kRings; ++j)
    for (int i = 0; i < kCorners; ++i)
      geom::append_quad(mesh, at(i, j), at(i, j + 1), at(i + 1, j + 1), at(i + 1, j));
  Drawable veil;
  veil.name = "reach";
  veil.colour = verdict_colour(row.verdict);
  veil.colour.a = 0.20F;
  veil.see_through = true;
  add_triangles(veil, geom::weld(mesh, 1e-9));
  veils.push_back(std::move(veil));
  for (int k = 0; k < 8; ++k) {
    Stroke stroke;
    stroke.colour = verdict_colour(row.verdict);
    stroke.colour.a = 0.55F;
    stroke.width = 1.2;
    for (int j = 0; j <= kRings; ++j) stroke.points.push_back(at(k * kCorners / 8, j));
    strokes.push_back(std::move(stroke));
  }
}

void Marks::tunnel(const dig::Station& station) {
  if (station.tunnel.size() < 2) {
    pin(geom::at_height(station.at, geom::height_at(m.ground, station.at)), tone::short_of(),
        station.weakness);
    return;
  }
  Stroke stroke;
  stroke.points = station.tunnel;
  stroke.colour = tone::short_of();
  stroke.width = 5.0;
  stroke.arrow = true;
  strokes.push_back(stroke);
  s.labels.push_back(
      {station.tunnel.front() + Vec3{0, 0, 0.3},
       "tunnel " + metres(station.least_length_m) + ", " + metres(station.least_depth_m) + " deep",
       tone::short_of()});
}

void Marks::gap(const openings::Opening& o) {
  const auto near = geom::nearest_on_edges(m.outline, geom::xy(o.at));
  const auto n = m.outline.size();
  const auto e = static_cast<std::size_t>(std::max(near.edge, 0));
  const Vec2 along = geom::unit(m.outline[(e + 1) % n] - m.outline[e]);
  ring(o.at, std::max(o.ball_m / 2.0, 0.01), tone::short_of(), true, along);
  ring(o.at, std::max(o.ball_m / 2.0, 0.01) + 0.12, tone::short_of(), true, along);
  s.labels.push_back(
      {o.at + Vec3{0, 0, 0.25}, o.what + ": ball of " + metres(o.ball_m, 3), tone::short_of()});
}

void Marks::sight_line(Vec3 to) {
  for (const Viewing& v : m.site.viewings) {
    const ViewingLine line = viewing_line(m.site.boundary, v);
    const Vec2 stand = geom::lerp(line.a, line.b, 0.5) - line.inwards * line.off;
    Stroke stroke;
    stroke.points = {geom::at_height(stand, geom::height_at(m.ground, stand) + v.eye_height),
                     to + Vec3{0, 0, m.site.species.eye_height.value}};
    stroke.colour = tone::accent();
    stroke.dash = 0.25;
    strokes.push_back(std::move(stroke));
  }
}

void Marks::outline_chosen() {
  if (s.chosen.kind != Chosen::Kind::section) return;
  for (const Panel& panel : m.panels) {
    if (panel.section != s.chosen.index) continue;
    Stroke stroke;
    stroke.colour = tone::accent();
    stroke.points = {geom::at_height(panel.a, panel.foot_a), geom::at_height(panel.b, panel.foot_b),
                     geom::at_height(panel.b, panel.top_b), geom::at_height(panel.a, panel.top_a),
                     geom::at_height(panel.a, panel.foot_a)};
    strokes.push_back(std::move(stroke));
  }
}

void Marks::finding(const std::string& analysis, const std::string& thing, std::optional<Vec3> at) {
  const CheckResults& r = s.study.judged()->results;
  if (analysis == "leap" && r.leap && thing.empty()) {
    route(*r.leap);
  } else if (analysis == "leap" && r.leap) {
    for (const auto& row : r.leap->objects)
      if (row.name == thing) reach(row);
    route(*r.leap);
  } else if (analysis == "dig" && r.dig) {
    tunnel(r.dig->worst);
  } else if (analysis == "openings" && r.openings && !r.openings->list.empty()) {
    const auto& list = r.openings->list;
    const auto nearest =
        std::min_element(list.begin(), list.end(), [&](const auto& a, const auto& b) {
          const Vec3 p = at.value_or(list.front().at);
          return geom::distance(a.at, p) < geom::distance(b.at, p);
        });
    gap(*nearest);
  } else if (at) {
    if (analysis == "sight") sight_line(*at);
    pin(*at, analysis == "sight" ? tone::accent() : tone::short_of(), thing);
  }
}

std::string finding_key(const Finding& f) {
  return f.analysis + "\n" + f.thing + "\n" + f.to_do;
}

}  // namespace

Colour verdict_colour(leap::Verdict verdict) {
  switch (verdict) {
    case leap::Verdict::a_way_out:
      return tone::short_of();
    case leap::Verdict::tight:
      return tone::tight();
    case leap::Verdict::clear:
      return tone::met();
    case leap::Verdict::cannot_be_reached:
      break;
  }
  return tone::unknown();
}

bool leap_is_live(const Session& s) {
  return s.study.live() && s.study.live()->leap;
}

const leap::Result* leap_result(const Session& s) {
  if (leap_is_live(s)) return &*s.study.live()->leap;
  const auto& judged = s.study.judged();
  return judged && judged->results.leap ? &*judged->results.leap : nullptr;
}

const leap::ObjectRow* leap_row(const Session& s, int object) {
  const leap::Result* leap = leap_result(s);
  if (leap == nullptr) return nullptr;
  for (const auto& row : leap->objects)
    if (row.object == object) return &row;
  return nullptr;
}

void update_marks(Session& s) {
  s.labels.clear();
  s.draw.tint.clear();
  s.redraw = true;
  const Model* m = model(s);
  if (m == nullptr || !s.renderer) return;
  Marks marks{s, *m, {}, {}};
  const auto& judged = s.study.judged();
  if (judged && s.finding.finding >= 0 &&
      s.finding.finding < static_cast<int>(judged->findings.size())) {
    const Finding& f = judged->findings[static_cast<std::size_t>(s.finding.finding)];
    marks.finding(f.analysis, f.thing, f.at);
  } else if (judged && s.finding.row >= 0 &&
             s.finding.row < static_cast<int>(judged->results.brief.size())) {
    const BriefRow& row = judged->results.brief[static_cast<std::size_t>(s.finding.row)];
    const auto place = place_of_row(s, s.finding.row);
    marks.finding(analysis_of(row.what), "", place ? std::optional(place->at) : std::nullopt);
  }
  if (s.chosen.kind == Chosen::Kind::object) {
    const leap::ObjectRow* row = leap_row(s, s.chosen.index);
    Colour tint = tone::accent();
    if (row != nullptr) {
      tint = verdict_colour(row->verdict);
      marks.reach(*row);
    }
    if (leap_is_live(s) && leap_result(s)->escape_leap_m) marks.route(*leap_result(s));
    tint.a = row != nullptr && row->verdict != leap::Verdict::clear ? 0.55F : 0.30F;
    for (std::size_t p = 0; p < m->parts.size(); ++p)
      if (m->parts[p].kind == PartKind::object && m->parts[p].source == s.chosen.index)
        s.draw.tint[static_cast<std::int32_t>(p)] = tint;
  }
  if (s.chosen.kind == Chosen::Kind::part) {
    Colour tint = tone::accent();
    tint.a = 0.35F;
    s.draw.tint[s.chosen.index] = tint;
  }
  marks.outline_chosen();
  s.renderer->set_strokes(std::move(marks.strokes));
  s.renderer->set_veils(marks.veils);
}

void find_again(Session& s) {
  const auto& judged = s.study.judged();
  if (!judged || s.finding.finding < 0) return;
  int same = -1;
  for (std::size_t i = 0; i < judged->findings.size() && same < 0; ++i)
    if (finding_key(judged->findings[i]) == s.finding.key) same = static_cast<int>(i);
  s.finding.finding = same;
}

void show_finding(Session& s, int finding) {
  if (!s.study.judged() || finding >= static_cast<int>(s.study.judged()->findings.size())) return;
  s.finding = {finding, -1,
               finding_key(s.study.judged()->findings[static_cast<std::size_t>(finding)])};
  s.chosen = {};
  if (const auto place = place_of_finding(s, finding)) look_at_place(s, place->at, place->radius);
  update_marks(s);
}

void show_row(Session& s, int row) {
  s.finding = {-1, row, ""};
  s.chosen = {};
  if (const auto place = place_of_row(s, row)) look_at_place(s, place->at, place->radius);
  update_marks(s);
}

void show_nothing(Session& s) {
  s.finding = {};
  update_marks(s);
}

}  // namespace hummock::viewer
