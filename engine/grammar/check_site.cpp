#include "engine/grammar/check_site.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

namespace hummock {
namespace {

constexpr double kTiny = 1e-9;         // m, for sums of decimals such as 0.1 + 0.2
constexpr double kMostPoints = 4.0e7;  // of the ground's grid; 16 M take under 1.5 GiB
constexpr double kHighLeap = 7.0;   // m; the record list gives the puma 7 m (Guinness; an anecdote)
constexpr double kLongLeap = 14.0;  // m; compilations tell of 13.7 m (45 ft), a puma with a run

// The line is the table's here; `check_site` puts the key's own in its place.
Where key_of(const Where& table, const char* key) {
  return {table.file, table.line, table.key + "." + key};
}

double edge_length(const Polygon& outline, int edge) {
  const auto i = static_cast<std::size_t>(edge);
  return geom::distance(outline[i], outline[(i + 1) % outline.size()]);
}

// Section number of each edge.
std::vector<int> check_cover(const Boundary& boundary) {
  const auto count = boundary.outline.size();
  std::vector<int> owner(count, -1);
  for (std::size_t s = 0; s < boundary.sections.size(); ++s) {
    const Section& section = boundary.sections[s];
    for (const int edge : section.edges) {
      const Where at = key_of(section.where, "edges");
      if (static_cast<std::size_t>(edge) >= count) {
        throw InputError(at, "edge " + std::to_string(edge),
                         "edges 0 to " + std::to_string(count - 1) + " of the outline");
      }
      int& of = owner[static_cast<std::size_t>(edge)];
      if (of >= 0) {
        throw InputError(at,
                         "edge " + std::to_string(edge) + ", which " +
                             in_quotes(boundary.sections[static_cast<std::size_t>(of)].name) +
                             " has already",
                         "every edge in one section");
      }
      of = static_cast<int>(s);
    }
  }
  for (std::size_t edge = 0; edge < count; ++edge) {
    if (owner[edge] >= 0) continue;
    throw InputError(key_of(boundary.where, "section"),
                     "edge " + std::to_string(edge) + " in no section",
                     "every edge in one section");
  }
  return owner;
}

void check_span(const Polygon& outline, const Where& table, int edge, double from, double width) {
  if (static_cast<std::size_t>(edge) >= outline.size()) {
    throw InputError(key_of(table, "edge"), std::to_string(edge),
                     "an edge from 0 to " + std::to_string(outline.size() - 1));
  }
  const double length = edge_length(outline, edge);
  if (from + width > length + kTiny) {
    throw InputError(
        key_of(table, "from"),
        "from + width = " + plain_number(from + width) + " on edge " + std::to_string(edge),
        "up to the edge's length, " + plain_number(length) + " (m)");
  }
}

struct Hole {
  std::string name;
  const Where* where;
  int edge;
  double from, width;
};

void check_apart(const std::vector<Hole>& holes) {
  for (std::size_t i = 0; i < holes.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const Hole& a = holes[i];
      const Hole& b = holes[j];
      const bool apart = a.edge != b.edge || a.from + a.width <= b.from + kTiny ||
                         b.from + b.width <= a.from + kTiny;
      if (apart) continue;
      throw InputError(key_of(*a.where, "from"), "an overlap with " + in_quotes(b.name),
                       "gates and drains beside each other");
    }
  }
}

void check_holes(const Boundary& boundary, const std::vector<int>& owner) {
  std::vector<Hole> holes;
  for (const Gate& gate : boundary.gates) {
    check_span(boundary.outline, gate.where, gate.edge, gate.from, gate.width);
    const Section& fence =
        boundary.sections[static_cast<std::size_t>(owner[static_cast<std::size_t>(gate.edge)])];
    if (gate.under_gap + gate.height > fence.height + kTiny) {
      throw InputError(key_of(gate.where, "height"),
                       plain_number(gate.height) + " over a gap of " + plain_number(gate.under_gap),
                       "up to the height of its fence " + in_quotes(fence.name) + ", " +
                           plain_number(fence.height) + " (m)");
    }
    holes.push_back({gate.name, &gate.where, gate.edge, gate.from, gate.width});
  }
  for (const Drain& drain : boundary.drains) {
    check_span(boundary.outline, drain.where, drain.edge, drain.from, drain.width);
    holes.push_back({drain.name, &drain.where, drain.edge, drain.from, drain.width});
  }
  check_apart(holes);
}

void check_house_hole(const House& house, const std::string& key, const WallOpening& hole) {
  const Where at = key_of(house.where, key.c_str());
  check_span(house.outline, at, hole.edge, hole.from, hole.width);
  if (hole.sill + hole.height > house.height + kTiny) {
    throw InputError(key_of(at, "height"),
                     plain_number(hole.height) + " over a sill of " + plain_number(hole.sill),
                     "up to the house's height, " + plain_number(house.height) + " (m)");
  }
}

void check_houses(const Site& site) {
  for (const House& house : site.houses) {
    if (house.door) check_house_hole(house, "door", *house.door);
    for (std::size_t i = 0; i < house.vents.size(); ++i) {
      check_house_hole(house, "vents[" + std::to_string(i) + "]", house.vents[i]);
    }
  }
}

// Every name of the file is the tag of something in the model, so it must say which.
void check_names(const Site& site) {
  std::map<std::string, Where> seen;
  const auto add = [&](const auto& list) {
    for (const auto& thing : list) {
      const auto [place, fresh] = seen.emplace(thing.name, thing.where);
      if (fresh) continue;
      throw InputError(key_of(thing.where, "name"),
                       in_quotes(thing.name) + ", the name of " + place->second.key + " on line " +
                           std::to_string(place->second.line),
                       "a name of its own");
    }
  };
  add(site.boundary.sections);
  add(site.boundary.gates);
  add(site.boundary.drains);
  add(site.objects);
  add(site.plantings);
  add(site.dens);
  add(site.burrows);
  add(site.waters);
  add(site.viewings);
  add(site.houses);
  add(site.surroundings);
  add(site.surfaces);
  add(site.stations);
}

// A station stands on a thing that has a top of its own.
void check_stands_on(const Site& site) {
  for (const Station& one : site.stations) {
    const auto is_it = [&](const auto& thing) { return thing.name == one.on; };
    if (one.on.empty() || std::any_of(site.objects.begin(), site.objects.end(), is_it) ||
        std::any_of(site.dens.begin(), site.dens.end(), is_it))
      continue;
    throw InputError(key_of(one.where, "on"), in_quotes(one.on),
                     "the name of an object or den of this site");
  }
}

bool on_the_ground(const Site& site, Vec2 p) {
  const Polygon& outline = site.boundary.outline;
  return geom::contains(outline, p) ||
         geom::distance_to_edges(outline, p) <= site.ground.margin + kTiny;
}

void check_on_ground(const Site& site, const Where& table, const char* key, Vec2 p) {
  if (on_the_ground(site, p)) return;
  throw InputError(key_of(table, key), "(" + plain_number(p.x) + ", " + plain_number(p.y) + ")",
                   "a place inside the outline or within its margin of " +
                       plain_number(site.ground.margin) + " (m)");
}

void check_start_outdoors(const Site& site) {
  if (!site.leap_start) return;
  for (const House& house : site.houses) {
    if (!geom::contains(house.outline, *site.leap_start)) continue;
    throw InputError({site.file.string(), 0, "leap.start"},
                     "(" + plain_number(site.leap_start->x) + ", " +
                         plain_number(site.leap_start->y) + "), in the house '" + house.name + "'",
                     "open ground it can stand on, not in a house, solid or deep water");
  }
}

void check_places(const Site& site) {
  for (const Object& one : site.objects) check_on_ground(site, one.where, "at", one.at);
  for (const Den& one : site.dens) check_on_ground(site, one.where, "at", one.at);
  for (const Burrow& one : site.burrows) {
    check_on_ground(site, one.where, "mouth", one.mouth);
    for (const Vec2 p : one.path) check_on_ground(site, one.where, "path", p);
  }
  for (const Planting& one : site.plantings) {
    for (const Vec2 p : one.outline) check_on_ground(site, one.where, "outline", p);
  }
  for (const Water& one : site.waters) {
    for (const Vec2 p : one.outline) check_on_ground(site, one.where, "outline", p);
  }
  for (const House& one : site.houses) {
    for (const Vec2 p : one.outline) check_on_ground(site, one.where, "outline", p);
  }
  for (const Surfacing& one : site.surfaces) {
    for (const Vec2 p : one.outline) check_on_ground(site, one.where, "outline", p);
  }
  for (const Station& one : site.stations) {
    if (one.at) check_on_ground(site, one.where, "at", *one.at);
  }
  if (site.leap_start && !geom::contains(site.boundary.outline, *site.leap_start)) {
    throw InputError(
        {site.file.string(), 0, "leap.start"},
        "(" + plain_number(site.leap_start->x) + ", " + plain_number(site.leap_start->y) + ")",
        "a place inside the outline");
  }
  check_start_outdoors(site);
}

void check_ground_size(const Site& site) {
  const auto box = geom::bounds(site.boundary.outline);
  const double nx = (box.hi.x - box.lo.x + 2 * site.ground.margin) / site.ground.cell + 1;
  const double ny = (box.hi.y - box.lo.y + 2 * site.ground.margin) / site.ground.cell + 1;
  if (nx * ny > kMostPoints) {
    throw InputError(
        key_of(site.ground.where, "cell"),
        plain_number(site.ground.cell) + ", a ground of " +
            plain_number(std::round(nx * ny / 1e6)) + " million points",
        "at most " + plain_number(kMostPoints / 1e6) + " million points; make the cell larger");
  }
  if (nx < 3.0 || ny < 3.0) {
    throw InputError(key_of(site.ground.where, "cell"),
                     plain_number(site.ground.cell) + ", larger than the yard",
                     "a cell well below the outline's width");
  }
}

void check_tables(const Site& site) {
  check_ground_size(site);
  const std::vector<int> owner = check_cover(site.boundary);
  check_holes(site.boundary, owner);
  for (const Viewing& one : site.viewings) {
    check_span(site.boundary.outline, one.where, one.edge, one.from, one.width);
  }
  check_houses(site);
  check_names(site);
  check_stands_on(site);
  check_places(site);
}

}  // namespace

void check_site(const Site& site, const TomlNode& tree) {
  try {
    check_tables(site);
  } catch (const InputError& error) {
    Where at = error.where();
    at.line = line_of_path(tree, at.key);
    throw InputError(at, error.found(), error.allowed());
  }
}

std::vector<std::string> doubtful_input(const Site& site) {
  std::vector<std::string> out;
  const auto add = [&](const Where& at, const std::string& words) {
    out.push_back(at.file + ":" + std::to_string(at.line) + ": " + at.key + ": " + words);
  };
  const Species& animal = site.species;
  if (animal.leap_height.value > kHighLeap) {
    add(animal.leap_height.where,
        plain_number(animal.leap_height.value) +
            " m is higher than the highest leap told of, a puma's 7 m (record lists)");
  }
  if (animal.leap_distance.value > kLongLeap) {
    add(animal.leap_distance.where,
        plain_number(animal.leap_distance.value) +
            " m is farther than the longest leap told of, a puma's 13.7 m");
  }
  for (const Section& one : site.boundary.sections) {
    if (one.hot_wire)
      add(one.where, "a hot wire is noted, never credited; the answers take it as off");
  }
  return out;
}

}  // namespace hummock
