#include "tests/witness/yard_text.h"

#include <cmath>

namespace hummock::witness {
namespace {

std::string outline_text(const std::vector<Vec2>& outline) {
  std::string out = "[";
  for (const Vec2& p : outline)
    out += fmt::format("{}[{:.3f}, {:.3f}]", out.size() > 1 ? ", " : "", p.x, p.y);
  return out + "]";
}

std::string species_text(const Animal& animal, double body_height) {
  const auto row = [](const char* key, const std::string& value, const char* more = "") {
    return fmt::format("{} = {{ value = {}, {}source = \"a trial of the invented animal\" }}\n",
                       key, value, more);
  };
  const auto metres = [](double v) { return fmt::format("{:.4f}", v); };
  // Shown by trials, so that no answer hides behind an "if".
  const char* jump = "measures = \"ledge\", evidence = \"trial\", ";
  std::string climbs;
  for (const std::string& c : animal.climbs)
    climbs += fmt::format("{}\"{}\"", climbs.empty() ? "" : ", ", c);
  return "format = 1\nname = \"invented animal\"\n" +
         row("leap_height", metres(animal.leap_height), jump) +
         row("leap_distance", metres(animal.leap_distance), jump) + row("grip", "0.0") +
         row("hangs", "false", "evidence = \"trial\", ") + row("cling_leap", metres(animal.cling)) +
         row("stand_slope", metres(animal.stand_slope / geom::kDegree)) +
         row("climbs", "[" + climbs + "]") +
         row("body", fmt::format("[{:.3f}, 0.1, {:.3f}]", animal.reach, body_height)) +
         row("least_opening", metres(animal.least_opening)) + row("dig_depth", "0.0") +
         row("dig_length", "0.0") + row("wade_depth", metres(animal.wade_depth)) +
         row("eye_height", "0.25");
}

}  // namespace

std::uint64_t Random::next() {
  state_ += 0x9e3779b97f4a7c15ULL;
  std::uint64_t z = state_;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
  return z ^ (z >> 31);
}

double Random::between(double lo, double hi) {
  const double u = static_cast<double>(next() >> 11) * 0x1.0p-53;
  return std::round((lo + (hi - lo) * u) * 1000.0) / 1000.0;
}

int Random::below(int n) {
  return static_cast<int>(next() % static_cast<std::uint64_t>(n));
}

YardText::YardText(std::vector<Vec2> outline, Animal animal) {
  yard_.outline = std::move(outline);
  yard_.animal = std::move(animal);
}

void YardText::section(const std::string& name, const std::string& edges, const std::string& kind,
                       double height, const std::string& more) {
  sections_ += fmt::format(
      "[[boundary.section]]\nname = \"{}\"\nedges = [{}]\nkind = \"{}\"\nheight = {:.3f}\n{}{}",
      name, edges, kind, height, kind == "mesh" ? "aperture = 0.025\n" : "", more);
}

void YardText::box(const std::string& name, Vec2 at, Vec3 size, double turn, double z) {
  body_ += fmt::format(
      "[[object]]\nname = \"{}\"\nkind = \"box\"\nat = [{:.3f}, {:.3f}]\nz = {:.3f}\nturn = "
      "{:.3f}\n"
      "size = [{:.3f}, {:.3f}, {:.3f}]\n",
      name, at.x, at.y, z, turn, size.x, size.y, size.z);
}

void YardText::mesh(const std::string& name, Vec2 at, const std::string& text, double turn) {
  yard_.files[name + ".obj"] = text;
  body_ += fmt::format(
      "[[object]]\nname = \"{0}\"\nkind = \"mesh\"\nfile = \"{0}.obj\"\nat = [{1:.3f}, {2:.3f}]\n"
      "turn = {3:.3f}\n",
      name, at.x, at.y, turn);
}

void YardText::house(const std::string& name, Vec2 lo, Vec2 hi, double height) {
  body_ += fmt::format("[[house]]\nname = \"{}\"\noutline = {}\nheight = {:.3f}\n", name,
                       outline_text({lo, {hi.x, lo.y}, hi, {lo.x, hi.y}}), height);
}

void YardText::start(Vec2 at) {
  yard_.start = at;
  body_ += fmt::format("[leap]\nstart = [{:.3f}, {:.3f}]\n", at.x, at.y);
}

RandomYard YardText::done() {
  yard_.animal.crouch = yard_.animal.least_opening;
  yard_.species = species_text(yard_.animal, body_height);
  yard_.site = fmt::format(
      "format = 1\nname = \"random yard\"\nanimals = 1\nspecies = "
      "\"animal.species.toml\"\n[ground]\n"
      "{}cell = {:.3f}\nmargin = {:.3f}\n[boundary]\noutline = {}\n{}{}"
      "[[require]]\nwhat = \"leap.margin\"\nat_least = {}\nsource = \"invented for the demo\"\n"
      "[[require]]\nwhat = \"openings.largest_m\"\nat_most = {:.4f}\n"
      "source = \"invented for the demo\"\n",
      ground, cell, margin, outline_text(yard_.outline), sections_, body_, kAskedMargin,
      yard_.animal.least_opening);
  return yard_;
}

std::vector<Vec2> rectangle(double width, double depth) {
  return {{0, 0}, {width, 0}, {width, depth}, {0, depth}};
}

void stairs(YardText& yard, Vec2 from, double height, double rise, double step) {
  int k = 0;
  for (double top = height; top > 0.05 && k < 8; top -= rise, ++k)
    yard.box(fmt::format("stair {}", k), {from.x, from.y + step * k}, {0.4, 0.4, top});
}

Animal leaper(Random& random) {
  Animal animal;
  animal.leap_height = random.between(0.6, 1.0);
  animal.leap_distance =
      std::round(animal.leap_height * random.between(1.7, 2.3) * 1000.0) / 1000.0;
  animal.least_opening = 0.06;
  animal.stand_slope = 40.0 * geom::kDegree;
  animal.reach = 0.12;
  animal.wade_depth = 0.1;
  return animal;
}

Animal climber(Random& random) {
  Animal animal = leaper(random);
  animal.climbs = {"mesh", "bark"};
  return animal;
}

std::string obj(const std::vector<Vec3>& corners, const std::vector<std::vector<int>>& faces) {
  std::string out;
  for (const Vec3& p : corners) out += fmt::format("v {:.5f} {:.5f} {:.5f}\n", p.x, p.y, p.z);
  for (const auto& f : faces) {
    out += "f";
    for (const int n : f) out += fmt::format(" {}", n);
    out += "\n";
  }
  return out;
}

}  // namespace hummock::witness
