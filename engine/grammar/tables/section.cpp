// Stretches of fence and what is built onto them.
#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

const Words kSurfaces{"rock", "wood", "bark", "smooth"};

const Words kSheets{"mesh", "solid", "glass"};

template <class Sheet>
bool is_mesh(const Sheet& s) {
  return s.kind == SheetKind::mesh;
}

constexpr double kSameHeight = 1e-9;  // m

void check_band(const TableCursor& table, const Band& band) {
  if (band.from < band.to) return;
  table.refuse("to", plain_number(band.to), "above its `from`, " + plain_number(band.from));
}

// Bands within the height, none over another or over the cap.
void check_bands(const TableCursor& table, const Section& s) {
  if (s.cap > s.height + kSameHeight) {
    table.refuse("cap", plain_number(s.cap),
                 "up to the section's height, " + plain_number(s.height) + " (m)");
  }
  for (std::size_t k = 0; k < s.bands.size(); ++k) {
    const Band& band = s.bands[k];
    if (band.to > s.height - s.cap + kSameHeight) {
      table.refuse("band", "a band up to " + plain_number(band.to),
                   "bands up to the section's height less its cap, " +
                       plain_number(s.height - s.cap) + " (m)");
    }
    for (std::size_t i = 0; i < k; ++i) {
      const Band& other = s.bands[i];
      if (band.from >= other.to - kSameHeight || other.from >= band.to - kSameHeight) continue;
      table.refuse("band",
                   "bands " + plain_number(other.from) + " to " + plain_number(other.to) + " and " +
                       plain_number(band.from) + " to " + plain_number(band.to),
                   "bands apart from each other");
    }
  }
}

void check_overhang_kind(const TableCursor& table, const Section& s) {
  if (!s.overhang || s.overhang->kind != SheetKind::mesh || is_mesh(s)) return;
  table.refuse("overhang", "an overhang of mesh", "mesh only on a section of mesh");
}

void check_section(const TableCursor& table, const Section& s) {
  check_bands(table, s);
  check_overhang_kind(table, s);
}

}  // namespace

const Table& overhang_table() {
  static const Table table = table_of<Overhang>(
      "an overhang towards the inside", "an overhang",
      {
          {.key = "length",
           .kind = Kind::length,
           .meaning = "along the panel",
           .needed = true,
           .range = {0.0, 5.0, "m", true},
           .member = of(&Overhang::length)},
          {.key = "angle",
           .kind = Kind::angle,
           .meaning = "above the horizontal",
           .needed = true,
           .range = {-60.0, 89.0, "degrees above horizontal"},
           .member = of(&Overhang::angle)},
          {.key = "profile",
           .kind = Kind::choice,
           .meaning = "a curved one leaves the fence upright and bends over evenly until its tip "
                      "lies at `angle`; `length` is along the curve",
           .words = {"straight", "curved"},
           .member = of(&Overhang::profile)},
          {.key = "kind",
           .kind = Kind::choice,
           .meaning = "what it is made of, where it is not what the fence is made of; mesh only on "
                      "a fence of mesh",
           .words = kSheets,
           .absent = "as the fence",
           .member = of(&Overhang::kind)},
      });
  return table;
}

// Of what a mesh is made, whether all of a section or a band of it.
template <class T>
Row aperture_row() {
  return {.key = "aperture",
          .kind = Kind::length,
          .meaning = "clear opening",
          .needed = true,
          .range = kAperture,
          .only = "mesh",
          .when = when<T>(is_mesh<T>),
          .step = kFine,
          .member = of(&T::aperture)};
}

template <class T>
Row wire_row() {
  return {.key = "wire",
          .kind = Kind::length,
          .meaning = "wire diameter",
          .range = kWire,
          .only = "mesh",
          .when = when<T>(is_mesh<T>),
          .step = kFine,
          .member = of(&T::wire)};
}

const Table& band_table() {
  static const Table table = [] {
    Table t =
        table_of<Band>("a stretch of the face of another make, all along the section", "a band",
                       {
                           {.key = "from",
                            .kind = Kind::length,
                            .meaning = "its lower edge, straight from post to post",
                            .range = {0.0, 30.0, "m above the foot"},
                            .member = of(&Band::from)},
                           {.key = "to",
                            .kind = Kind::length,
                            .meaning = "its upper edge",
                            .needed = true,
                            .range = {0.0, 30.0, "m above the foot", true},
                            .member = of(&Band::to)},
                           {.key = "kind",
                            .kind = Kind::choice,
                            .meaning = "what it is made of",
                            .needed = true,
                            .words = kSheets,
                            .member = of(&Band::kind)},
                           aperture_row<Band>(),
                           wire_row<Band>(),
                           {.key = "surface",
                            .kind = Kind::choice,
                            .meaning = "what a claw meets",
                            .words = kSurfaces,
                            .absent = "a mesh is mesh, the rest smooth",
                            .group = "Surface",
                            .member = of(&Band::surface)},
                       });
    t.check = check<Band>(check_band);
    return t;
  }();
  return table;
}

const Table& apron_table() {
  static const Table table = table_of<Apron>("a sheet laid against digging", "an apron",
                                             {
                                                 {.key = "length",
                                                  .kind = Kind::length,
                                                  .meaning = "away from the fence",
                                                  .needed = true,
                                                  .range = {0.0, 20.0, "m", true},
                                                  .member = of(&Apron::length)},
                                                 {.key = "depth",
                                                  .kind = Kind::length,
                                                  .meaning = "how deep it lies",
                                                  .range = {0.0, 5.0, "m below ground"},
                                                  .member = of(&Apron::depth)},
                                                 {.key = "side",
                                                  .kind = Kind::choice,
                                                  .meaning = "the side of the fence it lies on",
                                                  .words = {"inside", "outside"},
                                                  .member = of(&Apron::side)},
                                             });
  return table;
}

const Table& footing_table() {
  static const Table table = table_of<Footing>("concrete under the line", "a footing",
                                               {
                                                   {.key = "depth",
                                                    .kind = Kind::length,
                                                    .meaning = "of its underside",
                                                    .needed = true,
                                                    .range = {0.0, 10.0, "m below ground", true},
                                                    .member = of(&Footing::depth)},
                                                   {.key = "width",
                                                    .kind = Kind::length,
                                                    .meaning = "across the line",
                                                    .range = {0.0, 5.0, "m", true},
                                                    .member = of(&Footing::width)},
                                               });
  return table;
}

const Table& section_table() {
  static const Table table = [] {
    Table t = table_of<Section>(
        "every edge belongs to exactly one", "",
        {
            name_row(&Section::name, "section"),
            {.key = "edges",
             .kind = Kind::edges,
             .meaning = "the edges of the outline it runs along",
             .needed = true,
             .range = kEdges,
             .group = "What it is",
             .member = of(&Section::edges)},
            {.key = "kind",
             .kind = Kind::choice,
             .meaning = "what it is made of",
             .needed = true,
             .words = kSheets,
             .group = "What it is",
             .member = of(&Section::kind)},
            {.key = "height",
             .kind = Kind::length,
             .meaning = "above the ground at each post",
             .needed = true,
             .range = {0.1, 30.0, "m"},
             .member = of(&Section::height)},
            {.key = "fit",
             .kind = Kind::choice,
             .meaning = "raked follows the ground, stepped has level panels",
             .words = {"raked", "stepped"},
             .member = of(&Section::fit)},
            {.key = "panel",
             .kind = Kind::length,
             .meaning = "between posts; the last panel of an edge takes the rest evenly",
             .range = {0.1, 50.0, "m between posts"},
             .member = of(&Section::panel)},
            {.key = "overhang",
             .kind = Kind::table,
             .meaning = "towards the inside",
             .absent = "none",
             .group = "Top",
             .children = in(&Section::overhang),
             .table = overhang_table},
            aperture_row<Section>(),
            wire_row<Section>(),
            {.key = "buried",
             .kind = Kind::length,
             .meaning = "vertical, from the ground's surface down",
             .range = {0.0, 10.0, "m below ground"},
             .group = "Below ground",
             .member = of(&Section::buried)},
            {.key = "apron",
             .kind = Kind::table,
             .meaning = "a sheet laid against digging",
             .absent = "none",
             .group = "Below ground",
             .children = in(&Section::apron),
             .table = apron_table},
            {.key = "footing",
             .kind = Kind::table,
             .meaning = "concrete under the fence line",
             .absent = "none",
             .group = "Below ground",
             .children = in(&Section::footing),
             .table = footing_table},
            {.key = "surface",
             .kind = Kind::choice,
             .meaning = "what a claw meets",
             .words = kSurfaces,
             .absent = "a mesh is mesh, the rest smooth",
             .group = "Surface",
             .member = of(&Section::surface)},
            {.key = "guest_view",
             .kind = Kind::flag,
             .meaning = "guests look in here",
             .group = "Guests",
             .member = of(&Section::guest_view)},
            {.key = "joint_gap",
             .kind = Kind::length,
             .meaning = "left between neighbouring panels",
             .range = {0.0, 1.0, "m"},
             .step = kFine,
             .member = of(&Section::joint_gap)},
            {.key = "cap",
             .kind = Kind::length,
             .meaning = "a smooth solid sheet from the top down, not on gates",
             .range = {0.0, 30.0, "m from the top down"},
             .group = "Top",
             .member = of(&Section::cap)},
            {.key = "band",
             .kind = Kind::tables,
             .meaning =
                 "stretches of the face of another make, apart from each other; not on gates",
             .absent = "none",
             .group = "What it is",
             .children = in(&Section::bands),
             .table = band_table},
            {.key = "hot_wire",
             .kind = Kind::flag,
             .meaning = "noted, never credited: the answers take it as off",
             .group = "Top",
             .member = of(&Section::hot_wire)},
        });
    t.check = check<Section>(check_section);
    t.a = [](const void* s) {
      return "a " + kSheets[static_cast<std::size_t>(static_cast<const Section*>(s)->kind)] +
             " section";
    };
    return t;
  }();
  return table;
}

}  // namespace hummock::grammar
