#include "viewer/document/site_edits.h"

#include <cmath>

#include "engine/toml/edit_text.h"

namespace hummock::viewer {
namespace {

double rounded(double v, double step) {
  const double r = std::round(v / step) * step;
  // Through the nearest number with few digits: 0.30000000000000004 is nobody's measure.
  return std::round(r * 1e6) / 1e6 + 0.0;
}
std::string metres(double v) {
  return toml_number(rounded(v, 0.001));
}
std::string degrees(double radians) {
  return toml_number(rounded(radians / geom::kDegree, 0.1));
}
std::string point(Vec2 p) {
  return toml_point({rounded(p.x, 0.001), rounded(p.y, 0.001)});
}
std::string size(Vec3 s) {
  return toml_size({rounded(s.x, 0.001), rounded(s.y, 0.001), rounded(s.z, 0.001)});
}
std::string points(std::vector<Vec2> list) {
  for (Vec2& p : list) p = {rounded(p.x, 0.001), rounded(p.y, 0.001)};
  return toml_points(list);
}

std::string at_index(const char* list, int index) {
  return std::string(list) + "[" + std::to_string(index) + "]";
}

const char* kind_word(ObjectKind kind) {
  static constexpr const char* kWords[] = {"boulder", "log",      "tree", "box",
                                           "post",    "platform", "mesh"};
  return kWords[static_cast<int>(kind)];
}

std::string crown_words(const Crown& c) {
  std::string out = "{ shape = " + toml_text(c.shape) + ", size = " + size(c.size) +
                    ", base = " + metres(c.base) +
                    ", leaf_area_density = " + toml_number(rounded(c.leaf_area_density, 0.001));
  if (c.bare) {
    const auto day = [](MonthDay d) {
      std::string text = std::to_string(100 * d.month + d.day + 10000);
      return toml_text(text.substr(1, 2) + "-" + text.substr(3, 2));
    };
    out += ", bare = [" + day(c.bare->from) + ", " + day(c.bare->to) + "]";
  }
  return out + " }";
}

// Sets keys one after the other, only those whose value changed.
struct Patch {
  std::string text;
  std::string table;
  void set(const char* key, const std::string& before, const std::string& after) {
    if (before != after) text = set_key(text, table, key, after);
  }
};

}  // namespace

std::string edit_object(const std::string& text, int index, const Object& before,
                        const Object& after) {
  Patch p{text, at_index("object", index)};
  p.set("name", toml_text(before.name), toml_text(after.name));
  p.set("at", point(before.at), point(after.at));
  p.set("z", metres(before.z), metres(after.z));
  p.set("lean", degrees(before.lean), degrees(after.lean));
  p.set("turn", degrees(before.turn), degrees(after.turn));
  p.set("size", size(before.size), size(after.size));
  p.set("climbable", toml_flag(before.climbable), toml_flag(after.climbable));
  p.set("seed", toml_integer(before.seed), toml_integer(after.seed));
  p.set("scale", toml_number(before.scale), toml_number(after.scale));
  const auto trunk = [](const Object& o) {
    return "[" + metres(o.trunk_diameter) + ", " + metres(o.trunk_height) + "]";
  };
  p.set("trunk", trunk(before), trunk(after));
  const auto crown = [](const Object& o) {
    return o.crown ? crown_words(*o.crown) : std::string();
  };
  if (after.crown) p.set("crown", crown(before), crown(after));
  return p.text;
}

std::string append_object(const std::string& text, const Object& o,
                          const std::filesystem::path& folder) {
  KeyValues keys{
      {"name", toml_text(o.name)}, {"kind", toml_text(kind_word(o.kind))}, {"at", point(o.at)}};
  if (o.z != 0.0) keys.emplace_back("z", metres(o.z));
  if (o.kind == ObjectKind::tree) {
    keys.emplace_back("trunk",
                      "[" + metres(o.trunk_diameter) + ", " + metres(o.trunk_height) + "]");
    if (o.crown) keys.emplace_back("crown", crown_words(*o.crown));
  } else if (o.kind == ObjectKind::mesh) {
    keys.emplace_back("file", toml_text(o.file.lexically_proximate(folder).generic_string()));
    keys.emplace_back("scale", toml_number(o.scale));
    keys.emplace_back("up", toml_text(o.up));
  } else {
    keys.emplace_back("size", size(o.size));
  }
  if (o.turn != 0.0) keys.emplace_back("turn", degrees(o.turn));
  if (o.lean != 0.0) keys.emplace_back("lean", degrees(o.lean));
  if (o.kind == ObjectKind::boulder) keys.emplace_back("seed", toml_integer(o.seed));
  if (o.climbable) keys.emplace_back("climbable", toml_flag(true));
  if (!o.surface.empty()) keys.emplace_back("surface", toml_text(o.surface));
  return add_table(text, "object", keys);
}

std::string remove_object(const std::string& text, int index) {
  return remove_table(text, at_index("object", index));
}

std::string edit_corner(const std::string& text, const std::vector<Vec2>& outline, int corner,
                        Vec2 at) {
  std::vector<Vec2> moved = outline;
  moved.at(static_cast<std::size_t>(corner)) = at;
  return set_key(text, "boundary", "outline", points(moved));
}

std::string edit_section(const std::string& text, int index, const Section& before,
                         const Section& after) {
  Patch p{text, at_index("boundary.section", index)};
  p.set("height", metres(before.height), metres(after.height));
  p.set("panel", metres(before.panel), metres(after.panel));
  p.set("fit", toml_text(before.fit == Fit::raked ? "raked" : "stepped"),
        toml_text(after.fit == Fit::raked ? "raked" : "stepped"));
  p.set("aperture", metres(before.aperture), metres(after.aperture));
  p.set("buried", metres(before.buried), metres(after.buried));
  const auto overhang = [](const Section& s) {
    return s.overhang ? "{ length = " + metres(s.overhang->length) +
                            ", angle = " + degrees(s.overhang->angle) + " }"
                      : std::string();
  };
  if (before.overhang && !after.overhang)
    p.text = remove_key(p.text, p.table, "overhang");
  else if (after.overhang)
    p.set("overhang", overhang(before), overhang(after));
  return p.text;
}

std::string edit_roof(const std::string& text, const Roof& before, const Roof& after) {
  Patch p{text, "roof"};
  if (before.height && after.height) p.set("height", metres(*before.height), metres(*after.height));
  if (before.above_fence && after.above_fence)
    p.set("above_fence", metres(*before.above_fence), metres(*after.above_fence));
  p.set("sag", metres(before.sag), metres(after.sag));
  p.set("aperture", metres(before.aperture), metres(after.aperture));
  return p.text;
}

std::string append_forms(const std::string& text, const std::vector<GroundForm>& forms) {
  std::string out = text;
  for (const GroundForm& f : forms) {
    KeyValues keys;
    switch (f.kind) {
      case FormKind::mound:
        keys = {{"kind", toml_text("mound")},
                {"at", point(f.at)},
                {"radius", metres(f.radius)},
                {"height", metres(f.height)}};
        break;
      case FormKind::hollow:
        keys = {{"kind", toml_text("hollow")},
                {"at", point(f.at)},
                {"radius", metres(f.radius)},
                {"depth", metres(f.height)}};
        break;
      case FormKind::ridge:
        keys = {{"kind", toml_text("ridge")},
                {"path", points(f.path)},
                {"radius", metres(f.radius)},
                {"height", metres(f.height)}};
        break;
      case FormKind::bench:
        keys = {{"kind", toml_text("bench")},
                {"outline", points(f.outline)},
                {"level", metres(f.level)},
                {"batter", metres(f.batter)}};
        break;
      case FormKind::smooth:
        keys = {{"kind", toml_text("smooth")},
                {"outline", points(f.outline)},
                {"radius", metres(f.radius)}};
        break;
      case FormKind::slope:
        keys = {{"kind", toml_text("slope")},
                {"at", point(f.at)},
                {"angle", degrees(f.angle)},
                {"downhill", degrees(f.downhill)}};
        break;
    }
    out = add_table(out, "ground.form", keys);
  }
  return out;
}

}  // namespace hummock::viewer
