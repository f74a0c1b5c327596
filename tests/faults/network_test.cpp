// No file of any kind makes the program ask the network: not one of those it reads, nor one that
// names an address where a file should stand.
#include <cpl_conv.h>
#include <gdal_priv.h>
#include <gtest/gtest.h>

#include <array>
#include <assimp/Exporter.hpp>
#include <assimp/Importer.hpp>
#include <cstdlib>
#include <memory>

#include "tests/faults/faulty_run.h"
#include "tests/support/paths.h"
#include "tests/support/run_program.h"

namespace hummock::testing {
namespace {

namespace fs = std::filesystem;

constexpr const char* kAddress = "http://127.0.0.1:9/x";
constexpr int kColumns = 28, kRows = 24;  // of 0.5 m from (-3, -3): the small yard and its margin

class Network : public ::testing::Test {
 protected:
  void SetUp() override {
    if (std::system("strace -V >/dev/null 2>&1") != 0) GTEST_SKIP() << "strace is not installed";
    if (is_sanitized()) GTEST_SKIP() << "the leak checker does not run under strace";
  }

  // The status of `command` (words of the shell), and that neither it nor a process it started
  // opened a socket.
  int run_watched(const std::string& command) const {
    const std::string line = "cd '" + folder.path().string() +
                             "' && rm -f net.txt && strace -f -e trace=%network -o net.txt '" +
                             tests::program() + "' " + command + " >out.txt 2>&1";
    const int raw = std::system(line.c_str());
    const std::string calls = text_of(folder / "net.txt");
    EXPECT_NE(calls.find("+++ exited"), std::string::npos) << "nothing was watched: " << command;
    for (const char* call : {"socket(", "connect(", "sendto(", "sendmsg("}) {
      EXPECT_EQ(calls.find(call), std::string::npos) << command << ": " << calls;
    }
    return WEXITSTATUS(raw);
  }
  int map_of(const std::string& site) const {
    write_text(folder / "s.site.toml", site);
    return run_watched("map s.site.toml height -o x.tif");
  }
  std::string said() const { return text_of(folder / "out.txt"); }

  ScratchFolder folder;
};

std::string yard_on(const std::string& key, const std::string& file) {
  std::string site = small_yard();
  return site.replace(site.find("level = 0.0"), 11, key + " = \"" + file + "\"");
}

struct Close {
  void operator()(GDALDataset* d) const { GDALClose(d); }
};
using Dataset = std::unique_ptr<GDALDataset, Close>;

Dataset level_raster() {
  GDALAllRegister();
  auto* driver = GetGDALDriverManager()->GetDriverByName("MEM");
  Dataset data(driver->Create("", kColumns, kRows, 1, GDT_Float32, nullptr));
  std::array<double, 6> place{-3, 0.5, 0, 9, 0, -0.5};
  data->SetGeoTransform(place.data());
  data->GetRasterBand(1)->Fill(1.5);
  return data;
}

TEST_F(Network, IsNotAskedForARasterOfAnyDriver) {
  const Dataset level = level_raster();
  for (const char* name : {"GTiff", "AAIGrid", "XYZ", "GSAG", "GSBG", "GS7BG"}) {
    auto* driver = GetGDALDriverManager()->GetDriverByName(name);
    ASSERT_NE(driver, nullptr) << name;
    const std::string file = std::string(name) + ".grd";
    ASSERT_TRUE(Dataset(
        driver->CreateCopy((folder / file).c_str(), level.get(), 0, nullptr, nullptr, nullptr)))
        << name;
    EXPECT_EQ(map_of(yard_on("raster", file)), 0) << name << ": " << said();
  }
  std::string grass = "north: 9\nsouth: -3\neast: 11\nwest: -3\nrows: 24\ncols: 28\n";
  for (int r = 0; r < kRows; ++r) {
    for (int c = 0; c < kColumns; ++c) grass += "1.5 ";
    grass += "\n";
  }
  write_text(folder / "grass.txt", grass);
  EXPECT_EQ(map_of(yard_on("raster", "grass.txt")), 0) << said();
}

TEST_F(Network, IsNotAskedForPointsSpeciesOrClimate) {
  write_text(folder / "p.csv", "x,y,z\n-3,-3,0\n11,-3,0\n11,9,0\n-3,9,0\n");
  fs::copy_file(tests::source_dir() + "/assets/species/corsac.species.toml",
                folder / "own.species.toml");
  std::string climate = "time,temperature\n";
  for (int hour = 0; hour < 8760; ++hour) climate += std::to_string(hour) + ",5\n";
  write_text(folder / "c.csv", climate);
  std::string site = yard_on("points", "p.csv");
  site.replace(site.find("\"corsac\""), 8, "\"own.species.toml\"");
  site =
      "climate = \"c.csv\"\naccept = [\"climate-times\", \"survey-coarse\"]\n" + site +
      "[[house]]\nname = \"h\"\noutline = [[8.2, 1], [8.8, 1], [8.8, 2], [8.2, 2]]\nheight = 2.0\n";
  write_text(folder / "s.site.toml", site);
  EXPECT_LE(run_watched("check s.site.toml --only relief,houses"), 1) << said();
}

// One tetrahedron in every format the library writes and we read: each asked for on its own.
TEST_F(Network, IsNotAskedForAMeshOfAnyFormat) {
  write_text(folder / "t.off",
             "OFF\n4 4 0\n0 0 0\n1 0 0\n0 1 0\n0 0 1\n3 0 2 1\n3 0 1 3\n3 1 2 3\n3 0 3 2\n");
  Assimp::Importer importer;
  const aiScene* scene = importer.ReadFile((folder / "t.off").string(), 0);
  ASSERT_NE(scene, nullptr);
  const Assimp::Exporter exporter;
  int read = 0;
  std::string objects = mesh_object("t.off");
  for (const char* id : {"collada", "obj", "stl", "stlb", "ply", "plyb", "gltf2", "glb2", "3ds"}) {
    const std::string name = std::string("m_") + id + "." + [&] {
      for (std::size_t k = 0; k < exporter.GetExportFormatCount(); ++k) {
        const auto* format = exporter.GetExportFormatDescription(k);
        if (std::string(format->id) == id) return std::string(format->fileExtension);
      }
      return std::string("none");
    }();
    Assimp::Exporter writer;
    if (writer.Export(scene, id, (folder / name).string()) != aiReturn_SUCCESS) continue;
    std::string object = mesh_object(name);
    object.replace(object.find("\"ruin\""), 6, "\"ruin " + std::string(id) + "\"");
    objects += object;
    ++read;
  }
  EXPECT_GE(read, 7);
  EXPECT_EQ(map_of(small_yard(objects)), 0) << said();
}

std::string gltf_with(const std::string& buffer) {
  return R"({"asset":{"version":"2.0"},"scene":0,"scenes":[{"nodes":[0]}],"nodes":[{"mesh":0}],
"meshes":[{"primitives":[{"attributes":{"POSITION":0}}]}],
"accessors":[{"bufferView":0,"componentType":5126,"count":3,"type":"VEC3"}],
"bufferViews":[{"buffer":0,"byteLength":36}],"buffers":[{"uri":")" +
         buffer + R"(","byteLength":36}]})";
}

std::string raster_list(const std::string& source) {
  return "<VRTDataset rasterXSize=\"28\" rasterYSize=\"24\"><GeoTransform>-3, 0.5, 0, 9, 0, -0.5"
         "</GeoTransform><VRTRasterBand dataType=\"Float32\" band=\"1\"><SimpleSource>"
         "<SourceFilename relativeToVRT=\"0\">" +
         source +
         "</SourceFilename><SourceBand>1</SourceBand></SimpleSource></VRTRasterBand></VRTDataset>";
}

constexpr const char* kService =
    "<GDAL_WMS><Service name=\"WMS\"><ServerUrl>http://127.0.0.1:9/wms?</ServerUrl>"
    "<Layers>a</Layers></Service><DataWindow><UpperLeftX>-3</UpperLeftX><UpperLeftY>9</UpperLeftY>"
    "<LowerRightX>11</LowerRightX><LowerRightY>-3</LowerRightY><SizeX>28</SizeX><SizeY>24</SizeY>"
    "</DataWindow><BandsCount>1</BandsCount></GDAL_WMS>";

TEST_F(Network, IsNotAskedByAFileThatNamesAnAddress) {
  const std::string address = kAddress;
  write_text(folder / "vrt.tif", raster_list("/vsicurl/" + address + ".tif"));
  write_text(folder / "wms.tif", kService);
  write_text(folder / "far.gltf", gltf_with(address + ".bin"));
  for (const std::string& site :
       {yard_on("raster", "vrt.tif"), yard_on("raster", "wms.tif"), yard_on("raster", address),
        yard_on("raster", "/vsicurl/" + address), yard_on("points", address),
        small_yard(mesh_object("far.gltf")), small_yard(mesh_object(address + ".obj"))}) {
    EXPECT_EQ(map_of(site), 2) << said();
  }
  std::string species = small_yard();
  species.replace(species.find("\"corsac\""), 8, "\"" + address + ".species.toml\"");
  EXPECT_EQ(map_of(species), 2) << said();
  // A material and a projection that are elsewhere: the mesh and the grid are read without them.
  write_text(folder / "m.obj", "mtllib " + address + ".mtl\nv 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n");
  EXPECT_EQ(map_of(small_yard(mesh_object("m.obj"))), 0) << said();
  const Dataset level = level_raster();
  auto* driver = GetGDALDriverManager()->GetDriverByName("AAIGrid");
  ASSERT_TRUE(Dataset(
      driver->CreateCopy((folder / "g.asc").c_str(), level.get(), 0, nullptr, nullptr, nullptr)));
  write_text(folder / "g.prj", address + ".wkt");
  write_text(folder / "g.asc.aux.xml",
             "<PAMDataset><Metadata domain=\"OVERVIEWS\"><MDI key=\"OVERVIEW_FILE\">/vsicurl/" +
                 address + ".ovr</MDI></Metadata></PAMDataset>");
  EXPECT_EQ(map_of(yard_on("raster", "g.asc")), 0) << said();
}

}  // namespace
}  // namespace hummock::testing
