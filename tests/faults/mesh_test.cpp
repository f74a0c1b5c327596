// Meshes that crashed the reader, hung it, or lost faces in silence; and what a mesh may name.
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <array>
#include <csignal>
#include <string>

#include "tests/faults/faulty_run.h"
#include "tests/support/run_program.h"

namespace hummock::testing {
namespace {

constexpr const char* kTetrahedron =
    "OFF\n4 4 0\n0 0 0\n1 0 0\n0 1 0\n0 0 1\n3 0 2 1\n3 0 1 3\n3 1 2 3\n3 0 3 2\n";

// A COLLADA mesh whose array names itself: the reader went round in it for ever.
std::string collada(const std::string& array) {
  return "<?xml version=\"1.0\"?><COLLADA xmlns=\"http://www.collada.org/2005/11/COLLADASchema\" "
         "version=\"1.4.1\"><asset><unit meter=\"1\"/></asset><library_geometries><geometry "
         "id=\"g\"><mesh><source id=\"p\">" +
         array +
         "<technique_common><accessor source=\"#pa\" count=\"4\" stride=\"3\"><param name=\"X\" "
         "type=\"float\"/><param name=\"Y\" type=\"float\"/><param name=\"Z\" type=\"float\"/>"
         "</accessor></technique_common></source><vertices id=\"v\"><input semantic=\"POSITION\" "
         "source=\"#p\"/></vertices><triangles count=\"4\"><input semantic=\"VERTEX\" "
         "source=\"#v\" offset=\"0\"/><p>0 2 1 0 1 3 1 2 3 0 3 2</p></triangles></mesh>"
         "</geometry></library_geometries><library_visual_scenes><visual_scene id=\"s\"><node "
         "id=\"n\"><instance_geometry url=\"#g\"/></node></visual_scene></library_visual_scenes>"
         "<scene><instance_visual_scene url=\"#s\"/></scene></COLLADA>";
}

constexpr const char* kPlyHead =
    "ply\nformat ascii 1.0\nelement vertex 3\nproperty float x\nproperty float y\nproperty float "
    "z\n";

struct Case {
  const char* why;
  const char* file;
  std::string bytes;
};

class HostileMesh : public ::testing::TestWithParam<Case> {};

TEST_P(HostileMesh, IsRefusedInOneLineWithStatusTwo) {
  const ScratchFolder folder;
  write_text(folder / GetParam().file, GetParam().bytes);
  write_text(folder / "s.site.toml", small_yard(mesh_object(GetParam().file)));
  const Ended ended = run_in({}, {"map", "s.site.toml", "height", "-o", "x.tif"}, folder.path());
  EXPECT_FALSE(ended.hung);
  EXPECT_EQ(ended.status, 2) << ended.err;
  EXPECT_TRUE(is_one_plain_line(ended.err)) << ended.err;
  EXPECT_NE(ended.err.find("object[1].file"), std::string::npos) << ended.err;
  EXPECT_LT(ended.processor_seconds, 30.0);
  EXPECT_FALSE(std::filesystem::exists(folder / "x.tif"));
}

INSTANTIATE_TEST_SUITE_P(
    Files, HostileMesh,
    ::testing::Values(
        Case{"a count of corners no memory holds: the reader died of it", "a.off",
             "OFF\n2147483648 4 0\n0 0 0\n1 0 0\n0 1 0\n0 0 1\n3 0 2 1\n"},
        Case{"a face row that is no row: faces went in silence", "b.off",
             "OFF\n4 4 0\n0 0 0\n1 0 0\n0 1 0\n0 0 1\n3 0 2 1\n3 0" + std::string(5000, '[') +
                 "\n3 1 2 3\n3 0 3 2\n"},
        Case{"fewer faces than promised", "c.off",
             "OFF\n4 4 0\n0 0 0\n1 0 0\n0 1 0\n0 0 1\n3 0 2 1\n3 0 1 3\n"},
        Case{"a corner that is not there", "d.off",
             "OFF\n4 4 0\n0 0 0\n1 0 0\n0 1 0\n0 0 1\n3 0 2 1\n3 0 1 9\n3 1 2 3\n3 0 3 2\n"},
        Case{"an attribute twice: the reader went on for ever with growing memory", "e.dae",
             collada("<float_array id=\"pa\" id=\"12\">0 0 0 1 0 0 0 1 0 0 0 1</float_array>")},
        Case{"a header without its end", "f.ply",
             std::string(kPlyHead) + "element face 1\nproperty list uchar int vertex_indices\n"
                                     "end_he\"der\n0 0 0\n1 0 0\n0 1 0\n3 0 1 2\n"},
        Case{"more faces promised than rows", "g.ply",
             std::string(kPlyHead) + "element face 3\nproperty list uchar int vertex_indices\n"
                                     "end_header\n0 0 0\n1 0 0\n0 1 0\n3 0 1 2\n"},
        Case{"more triangles promised than bytes", "h.stl",
             std::string(80, 'x') + std::string("\xFF\xFF\xFF\x7F", 4) + std::string(50, '\0')},
        Case{
            "a glTF whose accessor is not there", "i.gltf",
            R"({"asset":{"version":"2.0"},"meshes":[{"primitives":[{"attributes":{"POSITION":7}}]}]})"}),
    [](const auto& one) { return std::string(1, one.param.file[0]); });

TEST(Mesh, AWholeOneIsRead) {
  const ScratchFolder folder;
  write_text(folder / "t.off", kTetrahedron);
  write_text(folder / "s.site.toml", small_yard(mesh_object("t.off")));
  EXPECT_EQ(run_in({}, {"map", "s.site.toml", "height", "-o", "x.tif"}, folder.path()).status, 0);
}

// A pipe nobody writes into: opening it waited for ever.
TEST(Mesh, APipeItNamesIsNotWaitedFor) {
  const ScratchFolder folder;
  ASSERT_EQ(::mkfifo((folder / "pipe.mtl").c_str(), 0600), 0);
  ASSERT_EQ(::mkfifo((folder / "pipe.bin").c_str(), 0600), 0);
  write_text(folder / "a.obj", "mtllib pipe.mtl\nv 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n");
  write_text(folder / "b.gltf",
             R"({"asset":{"version":"2.0"},"scene":0,"scenes":[{"nodes":[0]}],"nodes":[{"mesh":0}],
"meshes":[{"primitives":[{"attributes":{"POSITION":0}}]}],
"accessors":[{"bufferView":0,"componentType":5126,"count":3,"type":"VEC3"}],
"bufferViews":[{"buffer":0,"byteLength":36}],"buffers":[{"uri":"pipe.bin","byteLength":36}]})");
  write_text(folder / "a.site.toml", small_yard(mesh_object("a.obj")));
  write_text(folder / "b.site.toml", small_yard(mesh_object("b.gltf")));
  Circumstances c;
  c.patience = std::chrono::seconds(20);
  const Ended obj = run_in(c, {"map", "a.site.toml", "height", "-o", "x.tif"}, folder.path());
  EXPECT_FALSE(obj.hung);
  EXPECT_EQ(obj.status, 0) << obj.err;
  const Ended gltf = run_in(c, {"map", "b.site.toml", "height", "-o", "y.tif"}, folder.path());
  EXPECT_FALSE(gltf.hung);
  EXPECT_EQ(gltf.status, 2);
  EXPECT_NE(gltf.err.find("pipe.bin"), std::string::npos) << gltf.err;
}

// What a mesh refers to stays in its own folder; the path typed in the site file may leave it.
TEST(Mesh, WhatItNamesInAnotherFolderIsNotRead) {
  const ScratchFolder folder;
  std::filesystem::create_directories(folder / "meshes");
  const std::array<float, 9> corners{0, 0, 0, 1, 0, 0, 0, 1, 0};
  const std::string triangle(reinterpret_cast<const char*>(corners.data()), sizeof corners);
  write_text(folder / "out.bin", triangle);
  const auto gltf = [](const std::string& uri) {
    return R"({"asset":{"version":"2.0"},"scene":0,"scenes":[{"nodes":[0]}],"nodes":[{"mesh":0}],
"meshes":[{"primitives":[{"attributes":{"POSITION":0}}]}],
"accessors":[{"bufferView":0,"componentType":5126,"count":3,"type":"VEC3",
"min":[0,0,0],"max":[1,1,0]}],"bufferViews":[{"buffer":0,"byteLength":36}],
"buffers":[{"uri":")" +
           uri + R"(","byteLength":36}]})";
  };
  write_text(folder / "meshes/far.gltf", gltf("../out.bin"));
  write_text(folder / "meshes/link.gltf", gltf("link.bin"));
  std::filesystem::create_symlink("../out.bin", folder / "meshes/link.bin");
  write_text(folder / "meshes/near.gltf", gltf("near.bin"));
  write_text(folder / "meshes/near.bin", triangle);
  for (const auto& [name, status] : {std::pair{"far", 2}, {"link", 2}, {"near", 0}}) {
    write_text(folder / "s.site.toml",
               small_yard(mesh_object(std::string("meshes/") + name + ".gltf")));
    const Ended ended = run_in({}, {"map", "s.site.toml", "height", "-o", "x.tif"}, folder.path());
    EXPECT_EQ(ended.status, status) << name << ": " << ended.err;
  }
}

// 1 m drawn in millimetres. Refused before any work, naming the likely mend.
TEST(Mesh, OneFarLargerThanTheYardIsRefusedAtOnceNamingTheScale) {
  const ScratchFolder folder;
  write_text(folder / "cube.obj",
             "v 0 0 0\nv 1000 0 0\nv 1000 1000 0\nv 0 1000 0\nv 0 0 1000\nv 1000 0 1000\n"
             "v 1000 1000 1000\nv 0 1000 1000\nf 1 4 3 2\nf 5 6 7 8\nf 1 2 6 5\nf 2 3 7 6\n"
             "f 3 4 8 7\nf 4 1 5 8\n");
  write_text(folder / "s.site.toml", small_yard(mesh_object("cube.obj")));
  const Ended ended = run_in({}, {"check", "s.site.toml"}, folder.path());
  EXPECT_EQ(ended.status, 2);
  EXPECT_TRUE(is_one_plain_line(ended.err)) << ended.err;
  EXPECT_NE(ended.err.find("object[1].scale"), std::string::npos) << ended.err;
  EXPECT_LT(ended.processor_seconds, is_sanitized() ? 5.0 : 0.5);
  write_text(folder / "s.site.toml", small_yard(mesh_object("cube.obj", "scale = 0.001\n")));
  EXPECT_EQ(run_in({}, {"map", "s.site.toml", "height", "-o", "x.tif"}, folder.path()).status, 0);
}

// While the process starts and parts in two, too.
TEST(Interrupt, IsHonouredAtEveryMomentOfTheStart) {
  const ScratchFolder folder;
  std::string site = small_yard();
  site.replace(site.find("cell = 0.5"), 10, "cell = 0.05");  // so that no report is done by then
  write_text(folder / "s.site.toml", site);
  for (int ms = 0; ms < 25; ++ms) {
    Circumstances c;
    c.signal = SIGINT;
    c.after = std::chrono::milliseconds(ms);
    const Ended ended = run_in(c, {"report", "s.site.toml", "-o", "r"}, folder.path());
    EXPECT_EQ(ended.status, 130) << ms << " ms after the start: " << ended.err;
  }
  EXPECT_EQ(folder.files(), 1);
}

TEST(Mesh, TheFirstInterruptIsHonouredWhileOneIsRead) {
  const ScratchFolder folder;
  std::string big;  // some seconds of reading
  for (int k = 0; k < 400'000; ++k) {
    big += "v " + std::to_string(k % 7) + " " + std::to_string(k % 5) + " 0\n";
  }
  for (int k = 3; k < 400'000; ++k) {
    big +=
        "f " + std::to_string(k) + " " + std::to_string(k - 1) + " " + std::to_string(k - 2) + "\n";
  }
  write_text(folder / "big.obj", big);
  write_text(folder / "s.site.toml", small_yard(mesh_object("big.obj")));
  Circumstances c;
  c.signal = SIGINT;
  c.after = std::chrono::milliseconds(400);
  const Ended ended = run_in(c, {"map", "s.site.toml", "height", "-o", "x.tif"}, folder.path());
  EXPECT_EQ(ended.status, 130) << ended.err;
  EXPECT_LT(ended.seconds, 3.0);
  EXPECT_EQ(folder.files(), 2);
}

}  // namespace
}  // namespace hummock::testing
