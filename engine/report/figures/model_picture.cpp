#include "engine/report/figures/model_picture.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>
#include <utility>

#include "engine/mesh_export/part_colour.h"
#include "geometry/rays/ray_scene.h"

namespace hummock::report {
namespace {

using draw::Colour;
using mesh_export::ExportPart;

constexpr Vec2 kSheet{180.0, 96.0};  // mm
constexpr double kDots = 7.0;        // a millimetre
constexpr int kMostSheets = 12;      // seen through, one behind the other
constexpr double kEyeHeight = 35.0 * geom::kDegree;
constexpr double kAmbient = 0.42;

// So that a ray does not meet what it leaves: rays are float32, 1e-7 of how far they come.
double off_the_surface(double reach) {
  return std::max(1e-3, 4e-6 * reach);
}

struct View {
  Vec3 right, up, towards;  // unit; `towards` into the picture
  Vec3 middle;
  double m_per_dot = 0.01;
  int w = 0, h = 0;
};

struct Dot {
  Colour colour{1.0, 1.0, 1.0, 1.0};
  std::int32_t id = geom::kNoHit;  // first thing met, for the ink
  double depth = 0.0;
};

bool shown(PartKind kind) {
  return kind != PartKind::roof && kind != PartKind::skirt && kind != PartKind::apron &&
         kind != PartKind::footing;
}

std::vector<ExportPart> shown_parts(const Model& model) {
  std::vector<ExportPart> parts = mesh_export::chosen_parts(model, {});
  std::erase_if(parts, [](const ExportPart& p) { return !shown(p.kind); });
  return parts;
}

// The outline on the ground: the picture holds it and all parts but the ground's.
std::vector<Vec3> rim_of(const Model& model) {
  std::vector<Vec3> rim;
  for (const Vec2 p : model.outline) rim.push_back({p.x, p.y, geom::height_at(model.ground, p)});
  return rim;
}

View view_of(const std::vector<Vec3>& rim, const std::vector<ExportPart>& parts, double from) {
  const double c = std::cos(kEyeHeight);
  View view;
  view.towards = {-std::sin(from) * c, -std::cos(from) * c, -std::sin(kEyeHeight)};
  view.right = geom::unit(geom::cross(view.towards, Vec3{0, 0, 1}));
  view.up = geom::cross(view.right, view.towards);
  geom::Box2 box;
  const auto add = [&](Vec3 p) { box.add({geom::dot(p, view.right), geom::dot(p, view.up)}); };
  for (const Vec3& p : rim) add(p);
  for (const ExportPart& part : parts) {
    if (part.kind == PartKind::ground || part.kind == PartKind::surrounding) continue;
    for (const Vec3& v : part.mesh.vertices) add(v);
  }
  const Vec2 size = box.hi - box.lo;
  const Vec2 mid = (box.lo + box.hi) * 0.5;
  view.w = static_cast<int>(kSheet.x * kDots);
  view.h = static_cast<int>(kSheet.y * kDots);
  view.m_per_dot = 1.06 * std::max(size.x / view.w, size.y / view.h);
  view.middle = view.right * mid.x + view.up * mid.y;
  return view;
}

}  // namespace

class PictureScene {
 public:
  PictureScene(const Model& model, Vec3 sun, std::string light)
      : rim_(rim_of(model)), parts_(shown_parts(model)), sun_(sun), words_(std::move(light)) {
    const bool surrounded = std::any_of(parts_.begin(), parts_.end(), is_around);
    if (surrounded) light_.emplace();
    for (std::size_t k = 0; k < parts_.size(); ++k) {
      const auto id = static_cast<std::int32_t>(k);
      if (light_) light_->add_mesh(parts_[k].mesh, id);
      if (!is_around(parts_[k])) scene_.add_mesh(parts_[k].mesh, id);
      const geom::Box3 box = geom::bounds(parts_[k].mesh);
      reach_ = std::max({reach_, geom::length(box.lo), geom::length(box.hi)});
    }
    scene_.commit();
    if (light_) light_->commit();
  }

  View view(double from) const { return view_of(rim_, parts_, from); }
  const std::string& light() const { return words_; }

  Dot dot(const View& view, double x, double y) const {
    Dot made;
    const Vec3 at = view.middle + view.right * ((x - 0.5 * view.w) * view.m_per_dot) -
                    view.up * ((y - 0.5 * view.h) * view.m_per_dot);
    geom::Ray ray{at - view.towards * (2.0 * reach_), view.towards, 0.0, 1e30};
    double left = 1.0;  // of what is behind
    Colour sum{0.0, 0.0, 0.0, 1.0};
    for (int k = 0; k < kMostSheets && left > 0.02; ++k) {
      const geom::Hit hit = scene_.first_hit(ray);
      if (!hit) break;
      const ExportPart& part = parts_[static_cast<std::size_t>(hit.id)];
      if (made.id == geom::kNoHit) {
        made.id = hit.id;
        made.depth = hit.t;
      }
      add(sum, lit(part, ray.origin + ray.direction * hit.t, hit.normal, view),
          left * part.opacity);
      left *= 1.0 - part.opacity;
      ray.near = hit.t + off_the_surface(reach_);
    }
    add(sum, draw::kPaper, left);
    made.colour = sum;
    return made;
  }

 private:
  static bool is_around(const ExportPart& part) { return part.kind == PartKind::surrounding; }
  static void add(Colour& sum, const Colour& c, double share) {
    sum.r += share * c.r;
    sum.g += share * c.g;
    sum.b += share * c.b;
  }
  Colour lit(const ExportPart& part, Vec3 p, Vec3 normal, const View& view) const {
    Vec3 n = geom::unit(normal);
    if (geom::dot(n, view.towards) > 0.0) n = n * -1.0;
    const double facing = std::max(0.0, geom::dot(n, sun_));
    const double beam = facing > 0.0 ? light_at(p + n * (5.0 * off_the_surface(reach_))) : 0.0;
    const double shade = kAmbient + 0.08 * n.z + 0.62 * facing * beam;
    const Colour base = mesh_export::colour_of(part);
    const auto channel = [&](double v) { return std::clamp(v * 1.12 * shade + 0.03, 0.0, 1.0); };
    return {channel(base.r), channel(base.g), channel(base.b), 1.0};
  }
  double light_at(Vec3 p) const {
    const geom::RayScene& scene = light_ ? *light_ : scene_;
    geom::Ray ray{p, sun_, 0.0, 1e30};
    double left = 1.0;
    for (int k = 0; k < 6 && left > 0.05; ++k) {
      const geom::Hit hit = scene.first_hit(ray);
      if (!hit) break;
      left *= 1.0 - parts_[static_cast<std::size_t>(hit.id)].opacity;
      ray.near = hit.t + off_the_surface(reach_);
    }
    return left;
  }

  std::vector<Vec3> rim_;
  std::vector<ExportPart> parts_;
  Vec3 sun_;
  std::string words_;
  geom::RayScene scene_;  // what is seen
  // What casts shadows, where that is more: also what stands around and would hide the yard.
  std::optional<geom::RayScene> light_;
  double reach_ = 1.0;
};

namespace {

// Ink where one thing ends before another, so that the picture reads without colour.
std::vector<std::uint32_t> inked(const std::vector<Dot>& dots, const View& view) {
  std::vector<std::uint32_t> pixels(dots.size());
  const auto at = [&](int x, int y) -> const Dot& {
    return dots[static_cast<std::size_t>(std::min(y, view.h - 1)) *
                    static_cast<std::size_t>(view.w) +
                static_cast<std::size_t>(std::min(x, view.w - 1))];
  };
  const double jump = 12.0 * view.m_per_dot;
  for (int y = 0; y < view.h; ++y) {
    for (int x = 0; x < view.w; ++x) {
      const Dot& d = at(x, y);
      const auto edge = [&](const Dot& o) {
        return o.id != d.id || (d.id != geom::kNoHit && std::abs(o.depth - d.depth) > jump);
      };
      const double keep = edge(at(x + 1, y)) || edge(at(x, y + 1)) ? 0.45 : 1.0;
      const auto byte = [&](double v) {
        return static_cast<std::uint32_t>(std::lround(255.0 * std::clamp(v * keep, 0.0, 1.0)));
      };
      pixels[static_cast<std::size_t>(y) * static_cast<std::size_t>(view.w) +
             static_cast<std::size_t>(x)] =
          0xFF000000U | (byte(d.colour.r) << 16) | (byte(d.colour.g) << 8) | byte(d.colour.b);
    }
  }
  return pixels;
}

}  // namespace

std::shared_ptr<const PictureScene> picture_scene(const Model& model, Vec3 sun,
                                                  const std::string& light) {
  return std::make_shared<const PictureScene>(model, sun, light);
}

draw::Figure model_picture(const PictureScene& scene, double from) {
  const View view = scene.view(from);
  std::vector<Dot> dots(static_cast<std::size_t>(view.w) * static_cast<std::size_t>(view.h));
  tbb::parallel_for(0, view.h, [&](int y) {
    for (int x = 0; x < view.w; ++x) {
      dots[static_cast<std::size_t>(y) * static_cast<std::size_t>(view.w) +
           static_cast<std::size_t>(x)] = scene.dot(view, x + 0.5, y + 0.5);
    }
  });
  draw::Figure figure;
  figure.name = "model";
  figure.size = kSheet;
  figure.caption = fmt::format(
      "The model in parallel projection, seen from compass {:.0f}° and {:.0f}° above the level; "
      "{}. "
      "Roofs and what is below ground are left out; what stands around the yard casts its shadow "
      "but "
      "is not drawn. Sheets let light through as their mesh does.",
      std::fmod(from / geom::kDegree + 360.0, 360.0), kEyeHeight / geom::kDegree, scene.light());
  const auto pixels = std::make_shared<const std::vector<std::uint32_t>>(inked(dots, view));
  figure.draw = [pixels, w = view.w, h = view.h](draw::Canvas& canvas) {
    canvas.picture({0, 0}, canvas.size(), w, h, *pixels, true);
  };
  return figure;
}

}  // namespace hummock::report
