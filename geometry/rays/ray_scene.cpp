#include "geometry/rays/ray_scene.h"

#include <embree3/rtcore.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <new>
#include <stdexcept>
#include <string>
#include <tuple>

namespace hummock::geom {
namespace {

// What Embree last said was wrong, on the thread that called it; its callback has no object here.
thread_local std::string told;

void keep_told(void*, RTCError, const char* text) {
  told = text != nullptr ? text : "";
}

RTCDevice new_device() {
  const RTCDevice made = rtcNewDevice("threads=0");
  if (made != nullptr) rtcSetDeviceErrorFunction(made, keep_told, nullptr);
  return made;
}

// One device for the process: Embree's own advice; it holds no state of ours.
RTCDevice device() {
  static const RTCDevice shared = new_device();
  if (shared == nullptr && rtcGetDeviceError(nullptr) == RTC_ERROR_OUT_OF_MEMORY) {
    throw std::bad_alloc();
  }
  if (shared == nullptr) throw std::runtime_error("Embree gives no device on this machine");
  return shared;
}

RTCRay to_embree(const Ray& ray) {
  RTCRay r{};
  r.org_x = static_cast<float>(ray.origin.x);
  r.org_y = static_cast<float>(ray.origin.y);
  r.org_z = static_cast<float>(ray.origin.z);
  r.dir_x = static_cast<float>(ray.direction.x);
  r.dir_y = static_cast<float>(ray.direction.y);
  r.dir_z = static_cast<float>(ray.direction.z);
  r.tnear = static_cast<float>(ray.near);
  r.tfar = static_cast<float>(ray.far);
  r.mask = 0xFFFFFFFFU;
  return r;
}

void* got(void* buffer) {
  if (buffer == nullptr) throw std::bad_alloc();
  return buffer;
}

void* new_vertices(RTCGeometry geometry, std::size_t count) {
  return got(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3,
                                     3 * sizeof(float), count));
}

}  // namespace

struct RayScene::Inner {
  RTCScene scene = nullptr;
  std::vector<std::int32_t> ids;  // by Embree's geometry number

  Inner() : scene(rtcNewScene(device())) {
    rtcSetSceneFlags(scene, static_cast<RTCSceneFlags>(RTC_SCENE_FLAG_ROBUST |
                                                       RTC_SCENE_FLAG_CONTEXT_FILTER_FUNCTION));
    rtcSetSceneBuildQuality(scene, RTC_BUILD_QUALITY_MEDIUM);
  }
  Inner(const Inner&) = delete;
  Inner& operator=(const Inner&) = delete;
  ~Inner() { rtcReleaseScene(scene); }

  void attach(RTCGeometry geometry, std::int32_t id) {
    assert(id >= 0);
    rtcCommitGeometry(geometry);
    const unsigned number = rtcAttachGeometry(scene, geometry);
    rtcReleaseGeometry(geometry);
    if (ids.size() <= number) ids.resize(number + 1, kNoHit);
    ids[number] = id;
  }
};

RayScene::RayScene() : inner_(std::make_unique<Inner>()) {}
RayScene::~RayScene() = default;
RayScene::RayScene(RayScene&&) noexcept = default;
RayScene& RayScene::operator=(RayScene&&) noexcept = default;

void RayScene::add_ground(const Heightfield& ground, std::int32_t id) {
  const Grid& g = ground.grid;
  const RTCGeometry geometry = rtcNewGeometry(device(), RTC_GEOMETRY_TYPE_GRID);
  auto* v = static_cast<float*>(new_vertices(geometry, g.size()));
  for (int j = 0; j < g.ny; ++j) {
    for (int i = 0; i < g.nx; ++i) {
      *v++ = static_cast<float>(g.x0 + i * g.cell);
      *v++ = static_cast<float>(g.y0 + j * g.cell);
      *v++ = static_cast<float>(ground.at(i, j));
    }
  }
  // A grid holds at most 32767 nodes a side; larger grounds are laid as tiles that share a line.
  constexpr int kTile = 32000;
  std::vector<RTCGrid> tiles;
  for (int j = 0; j + 1 < g.ny; j += kTile) {
    for (int i = 0; i + 1 < g.nx; i += kTile) {
      tiles.push_back({static_cast<unsigned>(g.index(i, j)), static_cast<unsigned>(g.nx),
                       static_cast<unsigned short>(std::min(kTile + 1, g.nx - i)),
                       static_cast<unsigned short>(std::min(kTile + 1, g.ny - j))});
    }
  }
  auto* grids = static_cast<RTCGrid*>(got(rtcSetNewGeometryBuffer(
      geometry, RTC_BUFFER_TYPE_GRID, 0, RTC_FORMAT_GRID, sizeof(RTCGrid), tiles.size())));
  std::copy(tiles.begin(), tiles.end(), grids);
  inner_->attach(geometry, id);
}

void RayScene::add_mesh(const Mesh& mesh, std::int32_t id) {
  if (mesh.empty()) return;
  const RTCGeometry geometry = rtcNewGeometry(device(), RTC_GEOMETRY_TYPE_TRIANGLE);
  auto* v = static_cast<float*>(new_vertices(geometry, mesh.vertices.size()));
  for (const Vec3& p : mesh.vertices) {
    *v++ = static_cast<float>(p.x);
    *v++ = static_cast<float>(p.y);
    *v++ = static_cast<float>(p.z);
  }
  auto* t = static_cast<std::uint32_t*>(
      got(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3,
                                  3 * sizeof(std::uint32_t), mesh.triangles.size())));
  for (const Triangle& triangle : mesh.triangles)
    t = std::copy(triangle.begin(), triangle.end(), t);
  inner_->attach(geometry, id);
}

void RayScene::commit() {
  rtcCommitScene(inner_->scene);
  if (const RTCError error = rtcGetDeviceError(device()); error != RTC_ERROR_NONE) {
    if (error == RTC_ERROR_OUT_OF_MEMORY) throw std::bad_alloc();
    throw std::runtime_error("Embree could not build the ray scene (" + told + ")");
  }
}

Hit RayScene::first_hit(const Ray& ray) const {
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  RTCRayHit query{};
  query.ray = to_embree(ray);
  query.hit.geomID = RTC_INVALID_GEOMETRY_ID;
  query.hit.instID[0] = RTC_INVALID_GEOMETRY_ID;
  rtcIntersect1(inner_->scene, &context, &query);
  Hit hit;
  if (query.hit.geomID == RTC_INVALID_GEOMETRY_ID) return hit;
  hit.id = inner_->ids[query.hit.geomID];
  hit.triangle = query.hit.primID;
  hit.t = query.ray.tfar;
  hit.normal = {query.hit.Ng_x, query.hit.Ng_y, query.hit.Ng_z};
  return hit;
}

bool RayScene::occluded(const Ray& ray) const {
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  RTCRay r = to_embree(ray);
  rtcOccluded1(inner_->scene, &context, &r);
  return r.tfar < 0.0F;
}

std::uint32_t RayScene::occluded(const RayPacket16& rays) const {
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
  RTCRay16 r;
  alignas(64) int valid[16];
  for (int k = 0; k < 16; ++k) {
    // Where the machine's vectors are narrower than 16, Embree goes by tnear <= tfar and not by
    // `valid`, and its debug checks abort on a ray that is not a number: idle lanes get an empty
    // ray.
    const bool used = ((rays.valid >> k) & 1U) != 0U;
    valid[k] = used ? -1 : 0;
    r.org_x[k] = used ? rays.ox[k] : 0.0F;
    r.org_y[k] = used ? rays.oy[k] : 0.0F;
    r.org_z[k] = used ? rays.oz[k] : 0.0F;
    r.dir_x[k] = used ? rays.dx[k] : 0.0F;
    r.dir_y[k] = used ? rays.dy[k] : 0.0F;
    r.dir_z[k] = used ? rays.dz[k] : 1.0F;
    r.tnear[k] = used ? rays.near[k] : 1.0F;
    r.tfar[k] = used ? rays.far[k] : 0.0F;
    r.time[k] = 0.0F;
    r.mask[k] = 0xFFFFFFFFU;
    r.id[k] = 0;
    r.flags[k] = 0;
  }
  rtcOccluded16(valid, inner_->scene, &context, &r);
  std::uint32_t met = 0;
  for (int k = 0; k < 16; ++k) {
    if (valid[k] != 0 && r.tfar[k] < 0.0F) met |= 1U << k;
  }
  return met;
}

namespace {

// The context handed to the filter must begin with Embree's own.
struct CollectContext {
  RTCIntersectContext embree;
  std::vector<Hit>* hits;
  const std::vector<std::int32_t>* ids;
};

// Rejects every hit after noting it, so that the walk goes on to the end of the ray.
void collect(const RTCFilterFunctionNArguments* args) {
  auto* context = reinterpret_cast<CollectContext*>(args->context);
  for (unsigned k = 0; k < args->N; ++k) {
    if (args->valid[k] == 0) continue;
    args->valid[k] = 0;
    const RTCHit h = rtcGetHitFromHitN(args->hit, args->N, k);
    const double t = RTCRayN_tfar(args->ray, args->N, k);
    Hit hit{(*context->ids)[h.geomID], h.primID, t, {h.Ng_x, h.Ng_y, h.Ng_z}};
    context->hits->push_back(hit);
  }
}

}  // namespace

std::vector<Hit> RayScene::all_hits(const Ray& ray) const {
  std::vector<Hit> hits;
  CollectContext context;
  rtcInitIntersectContext(&context.embree);
  context.embree.filter = collect;
  context.hits = &hits;
  context.ids = &inner_->ids;
  RTCRay r = to_embree(ray);
  rtcOccluded1(inner_->scene, &context.embree, &r);
  std::sort(hits.begin(), hits.end(), [](const Hit& a, const Hit& b) {
    return std::tie(a.t, a.id, a.triangle) < std::tie(b.t, b.id, b.triangle);
  });
  // Embree may visit a triangle twice (split references).
  const auto same = [](const Hit& a, const Hit& b) {
    return a.id == b.id && a.triangle == b.triangle && a.t == b.t;
  };
  hits.erase(std::unique(hits.begin(), hits.end(), same), hits.end());
  return hits;
}

bool RayScene::segment_free(Vec3 a, Vec3 b, double clear) const {
  const double l = distance(a, b);
  if (l <= 2.0 * clear) return true;
  return !occluded({a, (b - a) * (1.0 / l), clear, l - clear});
}

void* RayScene::native() const {
  return inner_->scene;
}

}  // namespace hummock::geom
