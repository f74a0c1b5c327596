#include "engine/site/guest_lines.h"

#include "engine/site/viewing_line.h"

namespace hummock {

std::vector<GuestLine> guest_lines(const Site& site) {
  const Polygon& outline = site.boundary.outline;
  std::vector<GuestLine> out;
  for (const Viewing& v : site.viewings) {
    const ViewingLine line = viewing_line(site.boundary, v);
    out.push_back({v.name, line.a, line.b});
  }
  for (const Section& section : site.boundary.sections) {
    if (!section.guest_view) continue;
    for (const int edge : section.edges) {
      const auto k = static_cast<std::size_t>(edge);
      out.push_back({section.name, outline[k], outline[(k + 1) % outline.size()]});
    }
  }
  return out;
}

}  // namespace hummock
