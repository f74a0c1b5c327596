#include "tests/witness/exported_yard.h"

#include <assimp/postprocess.h>
#include <assimp/scene.h>
#include <embree3/rtcore.h>

#include <assimp/Importer.hpp>
#include <map>
#include <stdexcept>
#include <tuple>

namespace hummock::witness {
namespace {

// Corners closer than this are one: finer than anything a yard has, coarser than float32.
constexpr double kWeld = 1e-5;  // m

class Welder {
 public:
  explicit Welder(Piece& piece) : piece_(piece) {}
  int corner(Vec3 p) {
    const auto key = std::make_tuple(std::llround(p.x / kWeld), std::llround(p.y / kWeld),
                                     std::llround(p.z / kWeld));
    const auto [found, added] = known_.emplace(key, static_cast<int>(piece_.corners.size()));
    if (added) piece_.corners.push_back(p);
    return found->second;
  }

 private:
  Piece& piece_;
  std::map<std::tuple<long long, long long, long long>, int> known_;
};

void add_mesh(const aiMesh& mesh, const aiMatrix4x4& to_world, Piece& piece, Welder& welder) {
  for (unsigned f = 0; f < mesh.mNumFaces; ++f) {
    if (mesh.mFaces[f].mNumIndices != 3) continue;
    std::array<int, 3> t{};
    for (unsigned c = 0; c < 3; ++c) {
      const aiVector3D p = to_world * mesh.mVertices[mesh.mFaces[f].mIndices[c]];
      t[c] = welder.corner({p.x, -p.z, p.y});  // glTF has y up
    }
    if (t[0] != t[1] && t[1] != t[2] && t[2] != t[0]) piece.triangles.push_back(t);
  }
}

void add_node(const aiScene& scene, const aiNode& node, const aiMatrix4x4& above,
              std::vector<Piece>& out) {
  const aiMatrix4x4 to_world = above * node.mTransformation;
  if (node.mNumMeshes > 0) {
    Piece piece;
    piece.name = node.mName.C_Str();
    Welder welder(piece);
    for (unsigned k = 0; k < node.mNumMeshes; ++k) {
      const aiMesh& mesh = *scene.mMeshes[node.mMeshes[k]];
      piece.surface = scene.mMaterials[mesh.mMaterialIndex]->GetName().C_Str();
      add_mesh(mesh, to_world, piece, welder);
    }
    out.push_back(std::move(piece));
  }
  for (unsigned k = 0; k < node.mNumChildren; ++k)
    add_node(scene, *node.mChildren[k], to_world, out);
}

}  // namespace

std::vector<Piece> read_exported(const std::filesystem::path& glb) {
  Assimp::Importer importer;
  const aiScene* scene = importer.ReadFile(glb.string(), aiProcess_Triangulate);
  if (scene == nullptr)
    throw std::runtime_error("Assimp: " + std::string(importer.GetErrorString()));
  std::vector<Piece> out;
  add_node(*scene, *scene->mRootNode, aiMatrix4x4(), out);
  for (const Piece& piece : out)
    if (piece.is_ground()) return out;
  throw std::runtime_error("the exported file has no ground");
}

struct Rays::Inner {
  RTCDevice device = rtcNewDevice("threads=1");
  RTCScene scene = rtcNewScene(device);
  Inner() { rtcSetSceneFlags(scene, RTC_SCENE_FLAG_ROBUST); }
  ~Inner() {
    rtcReleaseScene(scene);
    rtcReleaseDevice(device);
  }
  Inner(const Inner&) = delete;
  Inner& operator=(const Inner&) = delete;
};

Rays::Rays() : inner_(std::make_unique<Inner>()) {}
Rays::~Rays() = default;
Rays::Rays(Rays&&) noexcept = default;

void Rays::add(const Piece& piece, int number) {
  if (piece.triangles.empty()) return;
  RTCGeometry g = rtcNewGeometry(inner_->device, RTC_GEOMETRY_TYPE_TRIANGLE);
  auto* v = static_cast<float*>(rtcSetNewGeometryBuffer(
      g, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3, 3 * sizeof(float), piece.corners.size()));
  for (const Vec3& p : piece.corners)
    for (const double c : {p.x, p.y, p.z}) *v++ = static_cast<float>(c);
  auto* t = static_cast<unsigned*>(rtcSetNewGeometryBuffer(
      g, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 3 * sizeof(unsigned), piece.triangles.size()));
  for (const auto& triangle : piece.triangles)
    for (const int c : triangle) *t++ = static_cast<unsigned>(c);
  rtcCommitGeometry(g);
  rtcAttachGeometryByID(inner_->scene, g, static_cast<unsigned>(number));
  rtcReleaseGeometry(g);
}

void Rays::commit() {
  rtcCommitScene(inner_->scene);
}

namespace {

// The ray's parameter runs from 0 at a to 1 at b.
RTCRay ray_between(Vec3 a, Vec3 b) {
  RTCRay ray{};
  ray.org_x = static_cast<float>(a.x), ray.org_y = static_cast<float>(a.y);
  ray.org_z = static_cast<float>(a.z);
  ray.dir_x = static_cast<float>(b.x - a.x), ray.dir_y = static_cast<float>(b.y - a.y);
  ray.dir_z = static_cast<float>(b.z - a.z);
  ray.tnear = 0.0F;
  ray.tfar = 1.0F;
  ray.mask = ~0U;
  return ray;
}

}  // namespace

bool Rays::free(Vec3 a, Vec3 b) const {
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  RTCRay ray = ray_between(a, b);
  rtcOccluded1(inner_->scene, &context, &ray);
  return ray.tfar >= 0.0F;
}

std::optional<Struck> Rays::first(Vec3 a, Vec3 b) const {
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  RTCRayHit query{};
  query.ray = ray_between(a, b);
  query.hit.geomID = RTC_INVALID_GEOMETRY_ID;
  rtcIntersect1(inner_->scene, &context, &query);
  if (query.hit.geomID == RTC_INVALID_GEOMETRY_ID) return std::nullopt;
  Struck out;
  out.at = lerp(a, b, query.ray.tfar);
  out.normal = unit(Vec3{query.hit.Ng_x, query.hit.Ng_y, query.hit.Ng_z});
  if (dot(out.normal, b - a) > 0.0) out.normal = -out.normal;
  out.piece = static_cast<int>(query.hit.geomID);
  return out;
}

}  // namespace hummock::witness
