#include "engine/openings/foot_gaps.h"

#include <algorithm>
#include <cmath>

#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::openings {

namespace {

struct Free {
  double low = 0.0, high = 0.0;
  double height() const { return high - low; }
};

// Everything that bounds the gap at one x, each straight over the stretch looked at.
struct Bounds {
  double ground = 0.0;
  double foot = 0.0;
  std::vector<Free> filled;  // skirt, footing
};

Bounds between(const Bounds& p, const Bounds& q, double t) {
  const auto mix = [t](double a, double b) { return a + (b - a) * t; };
  Bounds out{mix(p.ground, q.ground), mix(p.foot, q.foot), {}};
  for (std::size_t k = 0; k < p.filled.size(); ++k) {
    out.filled.push_back(
        {mix(p.filled[k].low, q.filled[k].low), mix(p.filled[k].high, q.filled[k].high)});
  }
  return out;
}

Free largest_free(Bounds b) {
  std::sort(b.filled.begin(), b.filled.end(),
            [](const Free& p, const Free& q) { return p.low < q.low; });
  Free best{b.foot, b.foot};
  double from = b.ground;
  for (const Free& f : b.filled) {
    const Free gap{from, std::min(f.low, b.foot)};
    if (gap.height() > best.height()) best = gap;
    from = std::max(from, f.high);
  }
  const Free last{from, b.foot};
  if (last.height() > best.height()) best = last;
  return best;
}

std::vector<double> heights_of(const Bounds& b) {
  std::vector<double> z{b.ground, b.foot};
  for (const Free& f : b.filled) {
    z.push_back(f.low);
    z.push_back(f.high);
  }
  return z;
}

// Where two of the bounding lines cross within the stretch the free height may have its greatest.
std::vector<double> crossings(const Bounds& p, const Bounds& q) {
  const std::vector<double> zp = heights_of(p), zq = heights_of(q);
  std::vector<double> ts{0.0, 1.0};
  for (std::size_t i = 0; i < zp.size(); ++i) {
    for (std::size_t j = i + 1; j < zp.size(); ++j) {
      const double dp = zp[i] - zp[j], dq = zq[i] - zq[j];
      if (dp * dq < 0.0) ts.push_back(dp / (dp - dq));
    }
  }
  std::sort(ts.begin(), ts.end());
  return ts;
}

bool in_hole(const std::vector<Vec2>& holes, double x) {
  return std::any_of(holes.begin(), holes.end(),
                     [x](Vec2 hole) { return hole.x < x && x < hole.y; });
}

class Profile {
 public:
  Profile(const geom::Heightfield& ground, const BarrierLine& line, const std::vector<Vec2>& holes)
      : ground_(ground),
        line_(line),
        holes_(holes),
        length_(geom::distance(line.a, line.b)),
        sheet_(line.sheet),
        skirt_(line.skirt),
        footing_(line.footing) {}

  std::vector<double> breaks() const {
    std::vector<double> xs{0.0, length_};
    for (const double t : geom::ground_breaks(ground_, line_.a, line_.b)) xs.push_back(t * length_);
    for (const SheetBand* band : {&sheet_, &skirt_, &footing_}) {
      xs.insert(xs.end(), band->breaks().begin(), band->breaks().end());
    }
    for (const Vec2& hole : holes_) xs.insert(xs.end(), {hole.x, hole.y});
    std::sort(xs.begin(), xs.end());
    std::erase_if(xs, [&](double x) { return x < 0.0 || x > length_; });
    return xs;
  }

  // Both ends of a stretch; false where there is no sheet above.
  bool bounds(double from, double to, Bounds& p, Bounds& q) const {
    const double middle = 0.5 * (from + to);
    const bool holed = in_hole(holes_, middle);
    const auto sp = foot_of_sheet(from, middle, holed), sq = foot_of_sheet(to, middle, holed);
    if (!sp || !sq) return false;
    p = {ground_at(from), *sp, {}};
    q = {ground_at(to), *sq, {}};
    for (const SheetBand* band : {&skirt_, &footing_}) {
      const auto fp = band->at(from, middle), fq = band->at(to, middle);
      if (!fp || !fq) continue;
      const bool set_in = line_.set_in_footing && band == &footing_;
      p.filled.push_back({fp->low, set_in ? std::max(fp->high, p.foot) : fp->high});
      q.filled.push_back({fq->low, set_in ? std::max(fq->high, q.foot) : fq->high});
    }
    return true;
  }

 private:
  double ground_at(double x) const {
    return geom::height_at(ground_, lerp(line_.a, line_.b, x / length_));
  }

  // Where the sheet's lower edge would be if it had no drain: a drain takes its own opening out of
  // the sheet and nothing of the gap below.
  double foot_without_drain(double x) const {
    const double t = x / length_;
    const double off = line_.foot_a + (line_.foot_b - line_.foot_a) * t;
    return line_.foot_follows ? ground_at(x) + off : off;
  }

  std::optional<double> foot_of_sheet(double x, double within, bool holed) const {
    const auto sheet = sheet_.at(x, within);
    if (!holed) return sheet ? std::optional(sheet->low) : std::nullopt;
    const double whole = foot_without_drain(x);
    return sheet ? std::min(sheet->low, whole) : whole;
  }

  const geom::Heightfield& ground_;
  const BarrierLine& line_;
  const std::vector<Vec2>& holes_;
  double length_;
  SheetBand sheet_, skirt_, footing_;
};

// x ranges of the drains of the panel's own edge.
std::vector<Vec2> drains_on(const Model& model, const BarrierLine& line) {
  std::vector<Vec2> holes;
  if (line.panel < 0) return holes;
  const int edge = model.panels[static_cast<std::size_t>(line.panel)].edge;
  const double len = geom::distance(line.a, line.b);
  const Vec2 along = geom::unit(line.b - line.a);
  for (const Drain& drain : model.site.boundary.drains) {
    const auto& outline = model.site.boundary.outline;
    const auto e = static_cast<std::size_t>(drain.edge);
    if (drain.edge != edge || e >= outline.size()) continue;
    const Vec2 p = outline[e];
    const Vec2 d = geom::unit(outline[(e + 1) % outline.size()] - p);
    const double x0 = dot(along, p + d * drain.from - line.a);
    const double x1 = dot(along, p + d * (drain.from + drain.width) - line.a);
    if (std::max(x0, x1) > 0.0 && std::min(x0, x1) < len) {
      holes.push_back({std::min(x0, x1), std::max(x0, x1)});
    }
  }
  return holes;
}

// As far as the gap is higher than `than`, m.
double length_above(const std::vector<GapStretch>& profile, double than) {
  double sum = 0.0;
  for (const GapStretch& s : profile) {
    const double p = s.at_from() - than, q = s.at_to() - than;
    if (p <= 0.0 && q <= 0.0) continue;
    const double share =
        p > 0.0 && q > 0.0 ? 1.0 : std::max(p, q) / (std::max(p, q) - std::min(p, q));
    sum += share * (s.to - s.from);
  }
  return sum;
}

Opening opening_of(const Model& model, const BarrierLine& line,
                   const std::vector<GapStretch>& profile) {
  Opening o;
  double x = 0.0, low = 0.0;
  for (const GapStretch& s : profile) {
    const bool first = s.at_from() >= s.at_to();
    const double height = std::max(s.at_from(), s.at_to());
    if (height <= o.ball_m) continue;
    o.ball_m = height;
    x = first ? s.from : s.to;
    low = first ? s.low_from : s.low_to;
  }
  const Vec2 at = lerp(line.a, line.b, x / geom::distance(line.a, line.b));
  o.at = at_height(at, low + 0.5 * o.ball_m);
  const double least = model.site.species.least_opening.value;
  o.passes = o.ball_m >= least;
  o.length_m = length_above(profile, o.passes ? least : kLeastListed);
  o.rigid_ball_m = rigid_ball(profile);
  return o;
}

}  // namespace

std::vector<GapStretch> gap_profile(const geom::Heightfield& ground, const BarrierLine& line,
                                    const std::vector<Vec2>& holes) {
  const Profile profile(ground, line, holes);
  const std::vector<double> xs = profile.breaks();
  std::vector<GapStretch> out;
  for (std::size_t k = 1; k < xs.size(); ++k) {
    const double from = xs[k - 1], to = xs[k];
    Bounds p, q;
    if (to - from < 1e-9) continue;
    if (!profile.bounds(from, to, p, q)) continue;
    const std::vector<double> ts = crossings(p, q);
    for (std::size_t i = 1; i < ts.size(); ++i) {
      const Free f = largest_free(between(p, q, ts[i - 1]));
      const Free g = largest_free(between(p, q, ts[i]));
      if (f.height() <= 0.0 && g.height() <= 0.0) continue;
      out.push_back({from + (to - from) * ts[i - 1], from + (to - from) * ts[i], f.low, g.low,
                     std::max(f.low, f.high), std::max(g.low, g.high)});
    }
  }
  return out;
}

double rigid_ball(const std::vector<GapStretch>& profile) {
  double best = 0.0;
  for (std::size_t from = 0; from < profile.size();) {
    std::size_t to = from + 1;
    while (to < profile.size() && profile[to].from - profile[to - 1].to < 1e-9) ++to;
    geom::Polygon outline;
    const auto add = [&](Vec2 p) {
      if (outline.empty() || geom::distance(outline.back(), p) > 1e-12) outline.push_back(p);
    };
    double highest = 0.0;
    for (std::size_t k = from; k < to; ++k) {
      add({profile[k].from, profile[k].low_from});
      add({profile[k].to, profile[k].low_to});
      highest = std::max({highest, profile[k].at_from(), profile[k].at_to()});
    }
    for (std::size_t k = to; k-- > from;) {
      add({profile[k].to, profile[k].high_to});
      add({profile[k].from, profile[k].high_from});
    }
    if (highest > std::max(best, kLeastListed) && outline.size() >= 3) {
      const double precision = 1e-3 * highest;
      best = std::max(best, 2.0 * geom::largest_inscribed_circle(outline, precision).radius);
    }
    from = to;
  }
  return best;
}

void add_foot_gaps(const Model& model, std::vector<Opening>& list) {
  for (BarrierLine& line : barrier_lines(model)) {
    if (line.leaf_part >= 0) line.skirt.clear();  // nothing runs on under a gate but a footing
    const auto profile = gap_profile(model.ground, line, drains_on(model, line));
    Opening o = opening_of(model, line, profile);
    if (o.ball_m < kLeastListed) continue;
    if (line.panel >= 0) {
      const Panel& panel = model.panels[static_cast<std::size_t>(line.panel)];
      o.what = "under panel";
      o.thing = model.site.boundary.sections[static_cast<std::size_t>(panel.section)].name;
    } else {
      const Part& part = model.parts[static_cast<std::size_t>(line.leaf_part)];
      o.what = part.kind == PartKind::gate ? "under gate" : "under panel";
      o.thing = part.name;
    }
    list.push_back(o);
  }
}

}  // namespace hummock::openings
