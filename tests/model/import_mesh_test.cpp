#include "engine/model/read/import_mesh.h"

#include <assimp/postprocess.h>
#include <assimp/scene.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <assimp/Exporter.hpp>
#include <assimp/Importer.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>

#include "tests/support/yard.h"

namespace hummock {
namespace {

// ±2 on each axis: eight equilateral triangles of side 2√2. Volume 32/3, area 16√3.
constexpr const char* kOctahedron =
    "OFF\n6 8 0\n2 0 0\n-2 0 0\n0 2 0\n0 -2 0\n0 0 2\n0 0 -2\n"
    "3 0 2 4\n3 2 1 4\n3 1 3 4\n3 3 0 4\n3 2 0 5\n3 1 2 5\n3 3 1 5\n3 0 3 5\n";
// A corner tetrahedron with its faces inwards: signed volume −1/6.
constexpr const char* kInwards =
    "OFF\n4 4 0\n0 0 0\n1 0 0\n0 1 0\n0 0 1\n3 0 1 2\n3 0 3 1\n3 0 2 3\n"
    "3 1 3 2\n";
// A cube of 1 without its lid, of four-cornered faces, 1 m wide, y up.
constexpr const char* kTub =
    "v 0 0 0\nv 1 0 0\nv 1 0 2\nv 0 0 2\nv 0 3 0\nv 1 3 0\nv 1 3 2\nv 0 3 2\n"
    "f 1 2 3 4\nf 1 5 6 2\nf 2 6 7 3\nf 3 7 8 4\nf 4 8 5 1\n";

class ImportMesh : public testing::Test {
 protected:
  void SetUp() override {
    const auto* info = testing::UnitTest::GetInstance()->current_test_info();
    folder_ = std::filesystem::temp_directory_path() /
              (std::string("hummock_mesh_") + info->name() + "_" + std::to_string(getpid()));
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  std::filesystem::path file(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name, std::ios::binary) << text;
    return folder_ / name;
  }
  static Site yard_with(const std::filesystem::path& path) {
    Site site = test::yard(12, 9, 2.0);
    Object rock;
    rock.name = "ruin";
    rock.kind = ObjectKind::mesh;
    rock.at = {5, 4};
    rock.file = path;
    rock.where = {"yard.site.toml", 31, "object[0]"};
    site.objects.push_back(rock);
    return site;
  }
  static std::string refusal(const Site& site) {
    try {
      test::built(site);
    } catch (const InputError& e) {
      return e.what();
    }
    return "";
  }
  std::filesystem::path folder_;
};

TEST_F(ImportMesh, AnOctahedronKeepsItsVolumeAndArea) {
  const geom::Mesh mesh = import_mesh(file("o.off", kOctahedron), 1.0, "z", {});
  EXPECT_EQ(mesh.triangles.size(), 8U);
  EXPECT_EQ(mesh.vertices.size(), 6U);
  EXPECT_EQ(geom::open_edges(mesh), 0U);
  EXPECT_NEAR(geom::signed_volume(mesh), 32.0 / 3.0, 1e-12);
  EXPECT_NEAR(geom::surface_area(mesh), 16.0 * std::sqrt(3.0), 1e-12);
}

TEST_F(ImportMesh, ScaleAndUpAxisAreApplied) {
  const auto path = file("tub.obj", kTub);  // 1 × 3 × 2, y up
  const geom::Box3 box = bounds(import_mesh(path, 0.5, "y", {}));
  EXPECT_NEAR(box.hi.x - box.lo.x, 1.0, 1e-6);  // the file's z
  EXPECT_NEAR(box.hi.y - box.lo.y, 0.5, 1e-6);  // the file's x
  EXPECT_NEAR(box.hi.z - box.lo.z, 1.5, 1e-6);  // the file's y
  const geom::Box3 on_x = bounds(import_mesh(path, 1.0, "x", {}));
  EXPECT_NEAR(on_x.hi.z - on_x.lo.z, 1.0, 1e-6);
  // Turned, not mirrored.
  EXPECT_NEAR(geom::signed_volume(import_mesh(file("o.off", kOctahedron), 1.0, "y", {})),
              32.0 / 3.0, 1e-12);
}

TEST_F(ImportMesh, StandsOnTheGroundOverItsPlace) {
  Site site = yard_with(file("o.off", kOctahedron));
  site.objects[0].scale = 0.25;
  site.objects[0].z = 0.1;
  const Model model = test::built(site);
  const Part& rock = test::part(model, PartKind::object, "ruin");
  EXPECT_TRUE(rock.closed);
  EXPECT_EQ(rock.surface, Surface::rock);
  const geom::Box3 box = bounds(rock.mesh);
  EXPECT_NEAR(box.lo.z, 0.1, 1e-9);
  EXPECT_NEAR(box.centre().x, 5.0, 1e-9);
  EXPECT_NEAR(box.centre().y, 4.0, 1e-9);
  EXPECT_TRUE(model.notes.empty());
}

TEST_F(ImportMesh, ConcaveFacesAreCutWithoutSpillingOver) {
  // An L of area 3 in the plane x = 1, as one six-cornered face.
  const auto path =
      file("l.obj", "v 1 0 0\nv 1 2 0\nv 1 2 1\nv 1 1 1\nv 1 1 2\nv 1 0 2\nf 1 2 3 4 5 6\n");
  EXPECT_NEAR(geom::surface_area(import_mesh(path, 1.0, "z", {})), 3.0, 1e-9);
}

TEST_F(ImportMesh, OneThatIsNotClosedServesRaysAndIsNamed) {
  Site site = yard_with(file("tub.obj", kTub));
  site.objects[0].up = "y";
  const Model model = test::built(site);
  const Part& tub = test::part(model, PartKind::object, "ruin");
  EXPECT_FALSE(tub.closed);
  ASSERT_EQ(model.notes.size(), 1U);
  EXPECT_NE(model.notes[0].find("mesh 'ruin' is not closed (4 open edges)"), std::string::npos);
  const geom::Hit hit = model.body_scene->first_hit({{5, 0.5, 1}, {0, 1, 0}, 0, 10});
  EXPECT_EQ(hit.id, model.object_part[0]);
}

TEST_F(ImportMesh, OneThatFacesInwardsIsTurnedAndNamed) {
  const Model model = test::built(yard_with(file("t.off", kInwards)));
  EXPECT_NEAR(geom::signed_volume(test::part(model, PartKind::object, "ruin").mesh), 1.0 / 6.0,
              1e-7);
  ASSERT_EQ(model.notes.size(), 1U);
}

TEST_F(ImportMesh, WhatIsNoMeshIsRefusedInOneLineWithTheKey) {
  for (const auto& path :
       {file("letter.glb", "Dear all, the rock follows by post."),
        file("letter.obj", "Dear all, the rock follows by post."), file("letter.txt", "rock"),
        file("empty.stl", ""), file("points.off", "OFF\n3 0 0\n0 0 0\n1 0 0\n0 1 0\n"),
        file("flat.off", "OFF\n3 1 0\n0 0 0\n1 0 0\n2 0 0\n3 0 1 2\n"),
        file("short.off", "OFF\n6 8 0\n2 0 0\n-2 0 0\n"), folder_ / "none.obj"}) {
    const std::string said = refusal(yard_with(path));
    EXPECT_EQ(said.rfind("yard.site.toml:31: object[0].file: found '", 0), 0U) << said;
    EXPECT_EQ(said.find('\n'), std::string::npos);
    EXPECT_LT(said.size(), 400U);
  }
}

// Debian's Assimp is built with assertions; this input used to end the program with SIGABRT.
TEST_F(ImportMesh, TheReadersAssertionsDoNotEndTheProgram) {
  const auto path = file("points.off", "OFF\n3 0 0\n0 0 0\n1 0 0\n0 1 0\n");
  Assimp::Importer importer;
  try {
    importer.ReadFile(path.string(), aiProcess_Triangulate);
  } catch (const std::exception&) {
  }
  SUCCEED();
}

// Files with bytes changed, cut or doubled either come in as a mesh or are refused.
TEST_F(ImportMesh, DamagedFilesAreReadOrRefused) {
  Assimp::Importer importer;
  const aiScene* scene = importer.ReadFile(file("o.off", kOctahedron).string(), 0);
  ASSERT_NE(scene, nullptr);
  std::mt19937 random(41);  // the seed of this test's cases
  int read = 0;
  int refused = 0;
  for (const char* format : {"glb2", "obj", "stl", "stlb", "ply"}) {
    const std::string name = std::string("good.") + (std::string(format) == "glb2"   ? "glb"
                                                     : std::string(format) == "stlb" ? "stl"
                                                                                     : format);
    Assimp::Exporter().Export(scene, format, (folder_ / name).string());
    std::ostringstream good;
    good << std::ifstream(folder_ / name, std::ios::binary).rdbuf();
    for (int round = 0; round < 60; ++round) {
      std::string bytes = good.str();
      for (int k = 0; k < 3; ++k) bytes[random() % bytes.size()] = static_cast<char>(random());
      if (round % 3 == 0) bytes.resize(random() % bytes.size());
      try {
        import_mesh(file("bad" + std::filesystem::path(name).extension().string(), bytes), 1.0, "z",
                    {});
        ++read;
      } catch (const InputError&) {
        ++refused;
      }
    }
  }
  EXPECT_EQ(read + refused, 300);
  EXPECT_GT(refused, 30);
}

}  // namespace
}  // namespace hummock
