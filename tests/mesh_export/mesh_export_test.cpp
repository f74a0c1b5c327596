// Each format is read back by Assimp and compared: counts, bounds, names, normals, colours, volume.
#include "engine/mesh_export/mesh_export.h"

#include <assimp/postprocess.h>
#include <assimp/scene.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <assimp/Importer.hpp>
#include <cmath>
#include <fstream>
#include <functional>
#include <set>
#include <sstream>

#include "tests/support/yard.h"

namespace hummock {
namespace {

namespace fs = std::filesystem;

class MeshExport : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() / ("hummock_export_" + std::to_string(::getpid()));
    fs::create_directories(folder_);
    Site site = test::yard(6, 4, 2.0);
    site.name = "Export yard";
    site.ground.cell = 0.25;
    test::add_box(site, "crate", {2, 2}, {1.0, 0.8, 0.5});
    test::add_boulder(site, "stone", {4, 2.5}, {1.0, 0.8, 0.7});
    test::add_mound(site, {4, 1}, 0.8, 0.3);
    model_ = test::built(site);
  }
  void TearDown() override { fs::remove_all(folder_); }

  mesh_export::Written write(const std::string& name, const mesh_export::Settings& settings = {}) {
    return mesh_export::write(folder_ / name, model_, settings);
  }
  const aiScene* read(const std::string& name, unsigned steps = 0) {
    const aiScene* scene = importer_.ReadFile((folder_ / name).string(), steps);
    EXPECT_NE(scene, nullptr) << importer_.GetErrorString();
    return scene;
  }
  geom::Mesh whole(const aiScene* scene) const;

  fs::path folder_;
  Model model_;
  Assimp::Importer importer_;
};

void visit(const aiNode* node, const aiMatrix4x4& above,
           const std::function<void(const aiNode*, const aiMatrix4x4&)>& use) {
  const aiMatrix4x4 here = above * node->mTransformation;
  use(node, here);
  for (unsigned k = 0; k < node->mNumChildren; ++k) visit(node->mChildren[k], here, use);
}

// All triangles with the nodes' turns applied.
geom::Mesh MeshExport::whole(const aiScene* scene) const {
  geom::Mesh out;
  visit(scene->mRootNode, aiMatrix4x4(), [&](const aiNode* node, const aiMatrix4x4& turn) {
    for (unsigned k = 0; k < node->mNumMeshes; ++k) {
      const aiMesh* mesh = scene->mMeshes[node->mMeshes[k]];
      const auto first = static_cast<std::uint32_t>(out.vertices.size());
      for (unsigned v = 0; v < mesh->mNumVertices; ++v) {
        const aiVector3D p = turn * mesh->mVertices[v];
        out.vertices.push_back({p.x, p.y, p.z});
      }
      for (unsigned f = 0; f < mesh->mNumFaces; ++f) {
        const unsigned* i = mesh->mFaces[f].mIndices;
        out.triangles.push_back({first + i[0], first + i[1], first + i[2]});
      }
    }
  });
  return out;
}

geom::Box3 bounds_of_model(const Model& model) {
  geom::Box3 box = geom::bounds(geom::ground_mesh(model.ground));
  for (const Part& part : model.parts) box.add(geom::bounds(part.mesh));
  return box;
}

std::size_t triangles_of_model(const Model& model) {
  std::size_t n = geom::ground_mesh(model.ground).triangles.size();
  for (const Part& part : model.parts) n += part.mesh.triangles.size();
  return n;
}

void expect_box(const geom::Box3& a, const geom::Box3& b, double tolerance) {
  EXPECT_NEAR(a.lo.x, b.lo.x, tolerance);
  EXPECT_NEAR(a.lo.y, b.lo.y, tolerance);
  EXPECT_NEAR(a.lo.z, b.lo.z, tolerance);
  EXPECT_NEAR(a.hi.x, b.hi.x, tolerance);
  EXPECT_NEAR(a.hi.y, b.hi.y, tolerance);
  EXPECT_NEAR(a.hi.z, b.hi.z, tolerance);
}

const aiMesh* mesh_of_node(const aiScene* scene, const std::string& name) {
  const aiNode* node = scene->mRootNode->FindNode(name.c_str());
  if (node == nullptr || node->mNumMeshes != 1) return nullptr;
  return scene->mMeshes[node->mMeshes[0]];
}

std::string material_name(const aiScene* scene, const aiMesh* mesh) {
  return scene->mMaterials[mesh->mMaterialIndex]->GetName().C_Str();
}

geom::Mesh welded(const aiMesh* mesh, double tolerance = 1e-6) {
  geom::Mesh out;
  for (unsigned v = 0; v < mesh->mNumVertices; ++v)
    out.vertices.push_back({mesh->mVertices[v].x, mesh->mVertices[v].y, mesh->mVertices[v].z});
  for (unsigned f = 0; f < mesh->mNumFaces; ++f) {
    const unsigned* i = mesh->mFaces[f].mIndices;
    out.triangles.push_back({i[0], i[1], i[2]});
  }
  return geom::weld(out, tolerance);
}

TEST_F(MeshExport, GlbComesBackWithNamesMaterialsBoundsAndYUp) {
  const auto written = write("yard.glb");
  const aiScene* scene = read("yard.glb");
  ASSERT_NE(scene, nullptr);
  EXPECT_EQ(written.parts, model_.parts.size() + 1);
  EXPECT_EQ(written.triangles, triangles_of_model(model_));
  const geom::Mesh all = whole(scene);
  EXPECT_EQ(all.triangles.size(), written.triangles);
  EXPECT_EQ(all.vertices.size(), written.vertices);
  const geom::Box3 box = bounds_of_model(model_);
  geom::Box3 turned;
  turned.add(geom::Vec3{box.lo.x, box.lo.z, -box.hi.y});
  turned.add(geom::Vec3{box.hi.x, box.hi.z, -box.lo.y});
  expect_box(geom::bounds(all), turned, 1e-5);
  for (const char* name : {"ground", "crate", "stone"}) {
    ASSERT_NE(mesh_of_node(scene, name), nullptr) << name;
    EXPECT_TRUE(mesh_of_node(scene, name)->HasNormals());
  }
  EXPECT_EQ(material_name(scene, mesh_of_node(scene, "ground")), "earth");
  EXPECT_EQ(material_name(scene, mesh_of_node(scene, "crate")), "wood");
  EXPECT_EQ(material_name(scene, mesh_of_node(scene, "stone")), "rock");
  // Panels share the section's name: numbered.
  EXPECT_NE(mesh_of_node(scene, "fence, panel 1"), nullptr);
  EXPECT_EQ(mesh_of_node(scene, "fence"), nullptr);
}

TEST_F(MeshExport, GlbKeepsTheVolumeOfASolid) {
  write("yard.glb");
  const aiScene* scene = read("yard.glb");
  const Part& stone = test::part(model_, PartKind::object, "stone");
  const geom::Mesh back = welded(mesh_of_node(scene, "stone"), 1e-5);
  EXPECT_TRUE(geom::is_closed(back));
  EXPECT_NEAR(geom::signed_volume(back), geom::signed_volume(stone.mesh), 1e-5);
}

TEST_F(MeshExport, GlbGivesMeshFencesTheirOpennessOnce) {
  write("yard.glb");
  const aiScene* scene = read("yard.glb");
  const aiMesh* panel = mesh_of_node(scene, "fence, panel 1");
  ASSERT_NE(panel, nullptr);
  aiColor4D base;
  ASSERT_EQ(scene->mMaterials[panel->mMaterialIndex]->Get(AI_MATKEY_BASE_COLOR, base), AI_SUCCESS);
  const Part& part = test::part(model_, PartKind::panel, "fence");
  EXPECT_NEAR(base.a, std::max(0.35, 1 - part.openness), 1e-5);
}

TEST_F(MeshExport, ObjComesBackZUpWithNamesAndMaterials) {
  const auto written = write("yard.obj");
  const aiScene* scene = read("yard.obj");
  ASSERT_NE(scene, nullptr);
  const geom::Mesh all = whole(scene);
  EXPECT_EQ(all.triangles.size(), written.triangles);
  expect_box(geom::bounds(all), bounds_of_model(model_), 1e-5);
  std::set<std::string> names;
  for (unsigned k = 0; k < scene->mNumMeshes; ++k) names.insert(scene->mMeshes[k]->mName.C_Str());
  EXPECT_EQ(names.count("ground"), 1U);
  EXPECT_EQ(names.count("crate"), 1U);
  EXPECT_EQ(names.count("fence__panel_1"), 1U);
  EXPECT_TRUE(fs::exists(folder_ / "yard.mtl"));
  std::set<std::string> materials;
  for (unsigned k = 0; k < scene->mNumMeshes; ++k)
    materials.insert(material_name(scene, scene->mMeshes[k]));
  EXPECT_EQ(materials.count("rock"), 1U);
  EXPECT_EQ(materials.count("earth"), 1U);
}

TEST_F(MeshExport, PlyComesBackWithTheMaterialsColours) {
  const auto written = write("yard.ply");
  const aiScene* scene = read("yard.ply");
  ASSERT_NE(scene, nullptr);
  ASSERT_EQ(scene->mNumMeshes, 1U);
  EXPECT_EQ(scene->mMeshes[0]->mNumFaces, written.triangles);
  EXPECT_EQ(scene->mMeshes[0]->mNumVertices, written.vertices);
  ASSERT_TRUE(scene->mMeshes[0]->HasVertexColors(0));
  expect_box(geom::bounds(whole(scene)), bounds_of_model(model_), 1e-4);
  // The ground is the first part: earth.
  const aiColor4D c = scene->mMeshes[0]->mColors[0][0];
  EXPECT_NEAR(c.r, 0.60, 0.005);
  EXPECT_NEAR(c.g, 0.53, 0.005);
  EXPECT_NEAR(c.b, 0.41, 0.005);
}

TEST_F(MeshExport, GlbShowsVertexValuesAsColoursDarkToPale) {
  mesh_export::Settings settings;
  settings.parts = {"ground"};
  std::vector<float> heights(model_.ground.z.begin(), model_.ground.z.end());
  settings.vertex_values["ground"] = heights;
  write("heights.glb", settings);
  const aiScene* scene = read("heights.glb");
  ASSERT_EQ(scene->mNumMeshes, 1U);
  const aiMesh* mesh = scene->mMeshes[0];
  ASSERT_TRUE(mesh->HasVertexColors(0));
  const auto highest = std::max_element(heights.begin(), heights.end()) - heights.begin();
  const auto lowest = std::min_element(heights.begin(), heights.end()) - heights.begin();
  EXPECT_GT(mesh->mColors[0][highest].g, mesh->mColors[0][lowest].g + 0.2F);
}

TEST_F(MeshExport, RefusesValuesThatDoNotFit) {
  mesh_export::Settings settings;
  settings.vertex_values["crate"] = {1.0F, 2.0F};
  EXPECT_THROW(write("x.glb", settings), InputError);
  EXPECT_FALSE(fs::exists(folder_ / "x.glb"));
}

TEST_F(MeshExport, TakesOnlyTheAskedPartsByNameOrKind) {
  mesh_export::Settings settings;
  settings.parts = {"crate"};
  EXPECT_EQ(write("crate.glb", settings).parts, 1U);
  settings.parts = {"object"};
  EXPECT_EQ(write("objects.glb", settings).parts, 2U);
  settings.parts = {"panel"};
  EXPECT_EQ(write("panels.glb", settings).parts,
            static_cast<std::size_t>(test::count_parts(model_, PartKind::panel)));
}

TEST_F(MeshExport, RefusesUnknownPartsFormatsAndScales) {
  mesh_export::Settings settings;
  settings.parts = {"crat"};
  EXPECT_THROW(write("x.glb", settings), InputError);
  EXPECT_THROW(write("x.dae"), InputError);
  settings.parts = {};
  settings.scale = 0.0;
  EXPECT_THROW(write("x.glb", settings), InputError);
  EXPECT_TRUE(fs::is_empty(folder_));
}

TEST_F(MeshExport, ScalesTheVertices) {
  mesh_export::Settings settings;
  settings.parts = {"crate"};
  settings.scale = 0.02;
  write("small.ply", settings);
  const geom::Box3 box = geom::bounds(whole(read("small.ply")));
  EXPECT_NEAR(box.hi.x - box.lo.x, 0.02, 1e-6);
  EXPECT_NEAR(box.hi.z - box.lo.z, 0.01, 1e-6);
}

TEST_F(MeshExport, WritesTheSameBytesTwice) {
  const auto bytes = [&](const std::string& name) {
    std::ifstream in(folder_ / name, std::ios::binary);
    std::stringstream all;
    all << in.rdbuf();
    return all.str();
  };
  for (const char* ending : {".glb", ".ply", ".obj"}) {
    write(std::string("a") + ending);
    const std::string first = bytes(std::string("a") + ending);
    write(std::string("a") + ending);
    EXPECT_EQ(bytes(std::string("a") + ending), first) << ending;
    EXPECT_GT(first.size(), 1000U);
  }
}

// The printed solid of one box is the box.
TEST_F(MeshExport, StlOfAClosedPartIsThatPart) {
  mesh_export::Settings settings;
  settings.parts = {"crate"};
  EXPECT_TRUE(write("crate.stl", settings).closed);
  const geom::Mesh back = geom::weld(whole(read("crate.stl")), 1e-6);
  EXPECT_TRUE(geom::is_closed(back));
  EXPECT_NEAR(geom::signed_volume(back), 1.0 * 0.8 * 0.5, 1e-5);
}

TEST_F(MeshExport, StlOfTheWholeIsOneClosedSolidForPrinting) {
  mesh_export::Settings settings;
  settings.scale = 0.02;
  const auto written = write("yard.stl", settings);
  EXPECT_TRUE(written.closed);
  for (const std::string& note : written.notes) ADD_FAILURE() << note;
  const aiScene* scene = read("yard.stl");
  const geom::Mesh back = geom::weld(whole(scene), 1e-9);
  EXPECT_EQ(scene->mMeshes[0]->mNumFaces, written.triangles);
  EXPECT_TRUE(geom::is_closed(back));
  // By hand: the block down to its base, the fence as a ring of slabs above the ground, the crate,
  // the posts and the stone. Bounds of the volume from below and above, in model metres.
  const double volume = geom::signed_volume(back) / std::pow(0.02, 3);
  const geom::Box3 box = geom::bounds(back);
  const double base = -box.lo.z / 0.02;
  const geom::Polygon all{{-2, -2}, {8, -2}, {8, 6}, {-2, 6}};
  const double block = 80 * base + geom::surface_sums(model_.ground, all, 0.0).volume_above_m3;
  const double thickness = 0.0015 / 0.02;
  const double ring = 20.0 * thickness * 2.0;
  EXPECT_GT(volume, block + ring + 0.4);
  EXPECT_LT(volume, block + ring + 0.4 + 1.0 * 0.8 * 0.7 + 1.0);
  EXPECT_NEAR(box.hi.z / 0.02, 2.0, 0.5);
}

// Past failure: a log on level ground touches it along one edge, and the whole was refused.
TEST_F(MeshExport, StlOfALogOnLevelGroundIsOneClosedSolid) {
  Site site = test::yard(6, 4, 2.0);
  site.ground.cell = 0.25;
  test::add_log(site, "log", {3, 2}, 2.0, 0.4);
  model_ = test::built(site);
  mesh_export::Settings settings;
  settings.scale = 0.02;
  const auto written = write("log.stl", settings);
  EXPECT_TRUE(written.closed);
  for (const std::string& note : written.notes) ADD_FAILURE() << note;
  EXPECT_TRUE(geom::is_closed(geom::weld(whole(read("log.stl")), 1e-9)));
}

TEST_F(MeshExport, AirIsAPartOfItsOwn) {
  mesh_export::Settings settings;
  settings.parts = {"air"};
  write("air.glb", settings);
  const aiScene* scene = read("air.glb");
  ASSERT_EQ(scene->mNumMeshes, 1U);
  const geom::Mesh back = welded(scene->mMeshes[0], 1e-6);
  EXPECT_GT(geom::signed_volume(back), 40.0);
  EXPECT_LT(geom::signed_volume(back), 48.0);
}

}  // namespace
}  // namespace hummock
