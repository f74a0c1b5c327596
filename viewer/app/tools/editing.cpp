#include "viewer/app/tools/editing.h"

#include <algorithm>
#include <cmath>

#include "engine/toml/edit_text.h"
#include "viewer/app/show/marks.h"
#include "viewer/document/site_edits.h"

namespace hummock::viewer {
namespace {

double to_millimetre(double v) {
  return std::round(v * 1000.0) / 1000.0;
}
Vec2 to_millimetre(Vec2 p) {
  return {to_millimetre(p.x), to_millimetre(p.y)};
}

// Runs an edit of the text and commits it; what the engine refuses is told.
template <class Edit>
bool commit_edit(Session& s, const std::string& what, const std::string& gesture, Edit edit) {
  try {
    return commit(s, edit(s.document.text()), what, gesture);
  } catch (const std::exception& error) {
    drop_proposal(s);
    tell(s, std::string("Not done: ") + error.what());
    return false;
  }
}

std::string free_name(const Site& site, const std::string& like) {
  const auto taken = [&](const std::string& name) {
    return std::any_of(site.objects.begin(), site.objects.end(),
                       [&](const Object& o) { return o.name == name; });
  };
  // "boulder 3" copied is "boulder 4", not "boulder 3 2".
  std::string stem = like;
  while (!stem.empty() && (std::isdigit(static_cast<unsigned char>(stem.back())) != 0))
    stem.pop_back();
  if (stem.empty() || stem.back() != ' ' || stem == like) stem = like + " ";
  for (int k = 2;; ++k)
    if (!taken(stem + std::to_string(k))) return stem + std::to_string(k);
}

Object plain_object(const std::string& kind) {
  Object o;
  o.kind = ObjectKind::box;
  o.size = {0.6, 0.5, 0.4};
  if (kind == "boulder") {
    o.kind = ObjectKind::boulder;
    o.size = {1.0, 0.8, 0.6};
    o.climbable = true;
  } else if (kind == "log") {
    o.kind = ObjectKind::log;
    o.size = {1.8, 0.3, 0.3};
  } else if (kind == "tree") {
    o.kind = ObjectKind::tree;
    o.size = {};
    o.trunk_diameter = 0.15;
    o.trunk_height = 2.0;
    o.crown = Crown{"ellipsoid", {2.0, 2.0, 2.0}, 1.4, 1.0, std::nullopt};
  } else if (kind == "post") {
    o.kind = ObjectKind::post;
    o.size = {0.15, 0.15, 1.0};
  } else if (kind == "platform") {
    o.kind = ObjectKind::platform;
    o.size = {1.2, 0.8, 0.6};
  }
  return o;
}

GroundForm form(FormKind kind) {
  GroundForm f;
  f.kind = kind;
  return f;
}

// Points at least `spacing` apart along the path, the ends kept.
std::vector<Vec2> spaced(const std::vector<Vec2>& path, double spacing) {
  std::vector<Vec2> out;
  for (const Vec2 p : path)
    if (out.empty() || geom::distance(out.back(), p) >= spacing) out.push_back(to_millimetre(p));
  return out;
}

// Convex outline of discs of `radius` round the points (Andrew's chain over 12-gons).
geom::Polygon round_outline(const std::vector<Vec2>& path, double radius) {
  std::vector<Vec2> points;
  for (const Vec2 p : path)
    for (int k = 0; k < 12; ++k) {
      const double a = 2.0 * geom::kPi * k / 12.0;
      points.push_back(to_millimetre(p + Vec2{radius * std::cos(a), radius * std::sin(a)}));
    }
  std::sort(points.begin(), points.end(),
            [](Vec2 a, Vec2 b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  geom::Polygon hull;
  for (int pass = 0; pass < 2; ++pass) {
    const std::size_t base = hull.size();
    for (const Vec2 p : points) {
      while (hull.size() >= base + 2 &&
             geom::cross(hull.back() - hull[hull.size() - 2], p - hull.back()) <= 1e-9)
        hull.pop_back();
      hull.push_back(p);
    }
    hull.pop_back();
    std::reverse(points.begin(), points.end());
  }
  return hull;
}

}  // namespace

const Site* site_read(const Session& s) {
  return s.site.get();
}

std::optional<Object> chosen_object(const Session& s) {
  const Site* site = site_read(s);
  if (site == nullptr || s.chosen.kind != Chosen::Kind::object) return std::nullopt;
  if (s.pose && s.pose->object == s.chosen.index) return s.pose->value;
  if (s.chosen.index >= static_cast<int>(site->objects.size())) return std::nullopt;
  return site->objects[static_cast<std::size_t>(s.chosen.index)];
}

void propose_object(Session& s, int object, const Object& value) {
  const Site* read = site_read(s);
  if (read == nullptr) return;
  s.pose = Pose{object, value, 0};
  Site site = *read;
  site.objects[static_cast<std::size_t>(object)] = value;
  s.study.propose(std::move(site), object);
  update_moved(s);
}

void drop_proposal(Session& s) {
  const bool had = s.pose.has_value() || s.study.proposing();
  s.pose.reset();
  s.study.end_proposals();
  update_moved(s);
  if (had) restudy(s);
}

void commit_object(Session& s, int object, const Object& value, const std::string& what,
                   const std::string& gesture) {
  const auto index = static_cast<std::size_t>(object);
  const Site* base = site_read(s);
  if (base == nullptr || index >= base->objects.size()) return;
  Object rounded = value;
  rounded.at = to_millimetre(value.at);
  rounded.z = to_millimetre(value.z);
  s.pose = Pose{object, rounded, 0};
  const Object before = base->objects[index];
  commit_edit(s, what, gesture, [&](const std::string& text) {
    return edit_object(text, object, before, rounded, s.document.file().parent_path());
  });
  update_moved(s);
}

const std::vector<std::string>& addable_kinds() {
  static const std::vector<std::string> kinds{"boulder", "log", "tree", "box", "post", "platform"};
  return kinds;
}

void add_object(Session& s, const std::string& kind) {
  const Site* site = site_read(s);
  const Model* m = model(s);
  if (site == nullptr || m == nullptr) return;
  Object object = plain_object(kind);
  object.name = free_name(*site, kind);
  Vec2 at = geom::largest_inscribed_circle(m->outline, 0.2).centre;
  const auto ahead =
      s.picker->ground(through(s.draw.camera, s.view, {s.view.width / 2.0, s.view.height / 2.0}));
  if (ahead && geom::contains(m->outline, geom::xy(*ahead))) at = geom::xy(*ahead);
  object.at = to_millimetre(m->to_site(at));
  object.seed = static_cast<std::uint32_t>(site->objects.size() + 1);
  const int index = static_cast<int>(site->objects.size());
  if (commit_edit(s, "add " + object.name, "", [&](const std::string& text) {
        return append_object(text, object, s.document.file().parent_path());
      })) {
    s.chosen = {Chosen::Kind::object, index};
    s.await_choice = true;
  }
}

void duplicate_chosen(Session& s) {
  const auto object = chosen_object(s);
  const Site* site = site_read(s);
  if (!object || site == nullptr) return;
  const std::string name = free_name(*site, object->name);
  const double aside = std::max({object->size.x, object->size.y, 0.4}) * 1.2;
  Object copy = *object;
  copy.name = name;
  copy.at = to_millimetre(object->at + Vec2{aside, 0.0});
  const int index = static_cast<int>(site->objects.size());
  if (commit_edit(s, "duplicate " + object->name, "", [&](const std::string& text) {
        return append_object(text, copy, s.document.file().parent_path());
      })) {
    s.chosen = {Chosen::Kind::object, index};
    s.await_choice = true;
  }
}

void delete_chosen(Session& s) {
  const auto object = chosen_object(s);
  if (!object) return;
  const int index = s.chosen.index;
  s.chosen = {};
  s.pose.reset();
  commit_edit(s, "delete " + object->name, "",
              [&](const std::string& text) { return remove_object(text, index); });
  update_marks(s);
}

void propose_corner(Session& s, int corner, Vec2 at) {
  const Site* base = site_read(s);
  if (base == nullptr) return;
  Site site = *base;
  site.boundary.outline[static_cast<std::size_t>(corner)] = at;
  s.study.propose(std::move(site));
}

void commit_corner(Session& s, int corner, Vec2 at) {
  commit_edit(s, "move fence corner " + std::to_string(corner + 1), "",
              [&](const std::string& text) {
                return edit_corner(text, s.site->boundary.outline, corner, at);
              });
}

void propose_site(Session& s, const Site& value) {
  s.in_hand = std::make_shared<Site>(value);
  s.study.propose(value);
}

void commit_site(Session& s, const Site& value, const std::string& what) {
  s.in_hand.reset();
  const std::shared_ptr<const Site> before = s.site;
  if (before == nullptr) return;
  commit_edit(s, what, "",
              [&](const std::string& text) { return edit_site(text, *before, value); });
}

void take_out_key(Session& s, const std::string& table, const std::string& key) {
  s.in_hand.reset();
  commit_edit(s, "take out " + key, "",
              [&](const std::string& text) { return remove_key(text, table, key); });
}

std::vector<GroundForm> forms_of(const Brush& brush, Vec2 origin) {
  std::vector<GroundForm> out;
  std::vector<Vec2> path = brush.path;
  for (Vec2& p : path) p = p + origin;
  if (path.empty()) return out;
  const double radius = to_millimetre(brush.radius);
  const double strength = to_millimetre(brush.strength);
  switch (brush.kind) {
    case StrokeKind::raise: {
      const auto points = spaced(path, radius / 2.0);
      GroundForm f = form(points.size() > 1 ? FormKind::ridge : FormKind::mound);
      f.radius = radius;
      f.height = strength;
      if (points.size() > 1)
        f.path = points;
      else
        f.at = points.front();
      out.push_back(f);
      break;
    }
    case StrokeKind::lower: {
      const auto points = spaced(path, radius / 2.0);
      for (const Vec2 p : points) {
        GroundForm f = form(FormKind::hollow);
        f.at = p;
        f.radius = radius;
        f.height = points.size() > 1 ? to_millimetre(strength / 2.0) : strength;
        out.push_back(f);
      }
      break;
    }
    case StrokeKind::smooth: {
      GroundForm f = form(FormKind::smooth);
      f.outline = round_outline(spaced(path, radius / 2.0), radius);
      f.radius = to_millimetre(std::max(0.05, radius * strength));
      out.push_back(f);
      break;
    }
    case StrokeKind::flatten: {
      GroundForm f = form(FormKind::bench);
      f.outline = round_outline(spaced(path, radius / 2.0), radius * 0.6);
      f.level = to_millimetre(brush.level);
      f.batter = to_millimetre(radius * 0.4);
      out.push_back(f);
      break;
    }
  }
  return out;
}

void propose_stroke(Session& s) {
  const Site* base = site_read(s);
  if (base == nullptr || model(s) == nullptr) return;
  Site site = *base;
  for (const GroundForm& f : forms_of(s.brush, model(s)->origin)) site.ground.forms.push_back(f);
  s.study.propose(std::move(site));
}

void commit_stroke(Session& s) {
  if (model(s) == nullptr || s.brush.path.empty()) return;
  static constexpr const char* kWords[] = {"raise the ground", "lower the ground",
                                           "smooth the ground", "flatten the ground"};
  const auto forms = forms_of(s.brush, model(s)->origin);
  s.brush.path.clear();
  commit_edit(s, kWords[static_cast<int>(s.brush.kind)], "",
              [&](const std::string& text) { return append_forms(text, forms); });
}

Matrix4 carry(const Model& m, const Object& shown, const Object& pose) {
  const Vec2 from = shown.at - m.origin;
  const Vec2 to = pose.at - m.origin;
  const double rise =
      geom::height_at(m.ground, to) - geom::height_at(m.ground, from) + pose.z - shown.z;
  return turn_and_shift(pose.turn - shown.turn, geom::at_height(from, 0.0),
                        {to.x - from.x, to.y - from.y, rise});
}

void update_moved(Session& s) {
  s.draw.moved.clear();
  s.redraw = true;
  const Model* m = model(s);
  const Site* site = s.shown.site.get();  // as it was built for the screen
  if (m == nullptr || site == nullptr || !s.pose) return;
  const auto index = static_cast<std::size_t>(s.pose->object);
  if (index >= site->objects.size()) return;
  const Matrix4 way = carry(*m, site->objects[index], s.pose->value);
  for (std::size_t p = 0; p < m->parts.size(); ++p)
    if ((m->parts[p].kind == PartKind::object || m->parts[p].kind == PartKind::crown) &&
        m->parts[p].source == s.pose->object)
      s.draw.moved[static_cast<std::int32_t>(p)] = way;
}

}  // namespace hummock::viewer
