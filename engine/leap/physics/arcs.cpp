#include "engine/leap/physics/arcs.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>

namespace hummock::leap {

using geom::Vec3;

double least_apex(double x, double z) {
  const double root = std::sqrt(z * z + x * x);
  if (z >= 0.0) return z + root;
  return root - z > 0.0 ? x * x / (root - z) : 0.0;
}

double arc_effort(double x, double z, double w) {
  const double top = x * x + w * w;
  if (top == 0.0) return std::max(z, 0.0);
  if (w <= z) return std::numeric_limits<double>::infinity();
  return top / (4.0 * (w - z));
}

Apexes apexes_at(double x, double z, double E) {
  const double inside = std::max(0.0, E * E - z * E - 0.25 * x * x);
  const double root = std::sqrt(inside);
  return {2.0 * (E + root), 2.0 * (E - root)};
}

namespace {

bool two_readings(double z, double s) {
  return z < 0.0 && s > 1.0;
}

// Least effort of one reading's flights from w on.
double reading_beyond(double x, double z, double w, bool steeper) {
  const double least = least_apex(x, z);
  return arc_effort(x, z, steeper ? std::max(w, least) : std::min(w, least));
}

}  // namespace

double least_flight(double r, double z, double s) {
  return least_apex(two_readings(z, s) ? r : s * r, z);
}

double flight_effort(double r, double z, double w, double s) {
  const double stretched = arc_effort(s * r, z, w);
  return two_readings(z, s) ? std::min(stretched, s * arc_effort(r, z, w)) : stretched;
}

double effort_beyond(double r, double z, double w, double s, bool steeper) {
  const double stretched = reading_beyond(s * r, z, w, steeper);
  if (!two_readings(z, s)) return stretched;
  return std::min(stretched, s * reading_beyond(r, z, w, steeper));
}

Vec3 point_on(const Arc& arc, double share) {
  const double z = arc.to.z - arc.from.z;
  return {arc.from.x + share * (arc.to.x - arc.from.x),
          arc.from.y + share * (arc.to.y - arc.from.y),
          arc.from.z + arc.apex * share * (1.0 - share) + z * share * share};
}

int chords_needed(double w, double z, double chord_error) {
  const double n = std::ceil(std::sqrt(std::max(0.0, w - z) / (4.0 * chord_error)));
  return std::clamp(static_cast<int>(n), 1, kMostChords);
}

std::vector<Vec3> chain(const Arc& arc, double chord_error) {
  const int n = chords_needed(arc.apex, arc.to.z - arc.from.z, chord_error);
  std::vector<Vec3> points;
  points.reserve(static_cast<std::size_t>(n) + 1);
  for (int k = 0; k <= n; ++k) points.push_back(point_on(arc, static_cast<double>(k) / n));
  return points;
}

namespace {

// Chords overlap by this much, m: the search takes the least over very many flights and would find
// any gap that rounding leaves at their joints.
constexpr double kOverlap = 2e-4;
constexpr double kBeyond = 1e9;  // m; numeric, far beyond any ray the library takes

Vec3 corner(const Arc& arc, int n, int k) {
  if (k == 0) return arc.from;
  return k == n ? arc.to : point_on(arc, static_cast<double>(k) / n);
}

// A chord from a to b, as a ray of the packet. The untested ends are cut off chord by chord,
// so a short last chord may go whole.
void add_chord(geom::RayPacket16& packet, int ray, const Arc& arc, bool last, Vec3 a, Vec3 b,
               const Ends& ends) {
  const Vec3 d = b - a;
  const double size = length(d);
  const double near = std::max(0.0, ends.clear_from - distance(arc.from, a));
  double far = last ? size : size + kOverlap;
  const double left = ends.clear_to - distance(b, arc.to);
  if (left > 0.0) far = size - left;
  // A chord without length, or beyond all measure, meets nothing that could be asked.
  if (size > 0.0 && size < kBeyond && far > near) {
    const double inverse = 1.0 / size;
    packet.ox[ray] = static_cast<float>(a.x);
    packet.oy[ray] = static_cast<float>(a.y);
    packet.oz[ray] = static_cast<float>(a.z);
    packet.dx[ray] = static_cast<float>(d.x * inverse);
    packet.dy[ray] = static_cast<float>(d.y * inverse);
    packet.dz[ray] = static_cast<float>(d.z * inverse);
    packet.near[ray] = static_cast<float>(near);
    packet.far[ray] = static_cast<float>(far);
    packet.valid |= 1U << ray;
  }
}

// One ray a chord.
geom::RayPacket16 packet_of(const Arc& arc, int n, const Ends& ends) {
  geom::RayPacket16 packet;
  packet.valid = 0;
  Vec3 a = arc.from;
  for (int k = 0; k < n; ++k) {
    const Vec3 b = corner(arc, n, k + 1);
    add_chord(packet, k, arc, k + 1 == n, a, b, ends);
    a = b;
  }
  return packet;
}

}  // namespace

int blocked_chord(const geom::RayScene& scene, const Arc& arc, double chord_error,
                  const Ends& ends) {
  const int n = chords_needed(arc.apex, arc.to.z - arc.from.z, chord_error);
  const geom::RayPacket16 packet = packet_of(arc, n, ends);
  if (packet.valid == 0) return -1;
  const std::uint32_t met = scene.occluded(packet);
  return met == 0 ? -1 : std::countr_zero(met);
}

std::uint32_t chords_blocked(const geom::RayScene& scene, std::span<const Arc> arcs,
                             double chord_error, const Ends& ends, int chord) {
  geom::RayPacket16 packet;
  packet.valid = 0;
  for (std::size_t i = 0; i < arcs.size(); ++i) {
    const Arc& arc = arcs[i];
    const int n = chords_needed(arc.apex, arc.to.z - arc.from.z, chord_error);
    const int k = std::min(chord, n - 1);
    add_chord(packet, static_cast<int>(i), arc, k + 1 == n, corner(arc, n, k),
              corner(arc, n, k + 1), ends);
  }
  return packet.valid == 0 ? 0 : scene.occluded(packet);
}

double share_at(const Arc& arc, double chord_error, int chord) {
  return (chord + 0.5) / chords_needed(arc.apex, arc.to.z - arc.from.z, chord_error);
}

bool arc_free(const geom::RayScene& scene, const Arc& arc, double chord_error, const Ends& ends,
              double* blocked_at) {
  const int chord = blocked_chord(scene, arc, chord_error, ends);
  if (chord >= 0 && blocked_at != nullptr) *blocked_at = share_at(arc, chord_error, chord);
  return chord < 0;
}

}  // namespace hummock::leap
