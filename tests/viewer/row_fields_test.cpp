// The fields made from the grammar, without a screen: ImGui runs, nothing is drawn.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "engine/grammar/tables.h"
#include "engine/site/read_site.h"
#include "viewer/document/site_edits.h"
#include "viewer/ui/panels.h"

namespace hummock::viewer {
namespace {

namespace fs = std::filesystem;

const fs::path kYard =
    fs::path(HUMMOCK_VIEWER_TEST_DATA) / ".." / "data" / "site" / "good.site.toml";

constexpr int kEnter = 13;

struct RowFields : testing::Test {
  Session session{kYard};
  Site site = read_site(kYard);
  RowsEdit edit;

  RowFields() {
    ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.DisplaySize = {900.0F, 3000.0F};
    io.IniFilename = nullptr;
    io.KeyMap[ImGuiKey_A] = 'A';
    io.KeyMap[ImGuiKey_Enter] = kEnter;
    unsigned char* pixels = nullptr;
    int width = 0, height = 0;
    io.Fonts->GetTexDataAsAlpha8(&pixels, &width, &height);
  }
  ~RowFields() override { ImGui::DestroyContext(); }

  void frame(const grammar::Table& table, void* thing, const std::string& path,
             const std::string& name) {
    ImGui::GetIO().DeltaTime = 0.05F;
    ImGui::NewFrame();
    ImGui::SetNextWindowPos({0.0F, 0.0F});
    ImGui::SetNextWindowSize({880.0F, 2900.0F});
    ImGui::Begin("fields", nullptr, ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings);
    const RowsEdit now = row_fields(session, table, thing, path, name);
    edit.done |= now.done;
    edit.moving |= now.moving;
    if (!now.take_out.empty()) edit.take_out = now.take_out;
    ImGui::End();
    ImGui::Render();
  }

  // A field for each key that means something, in the thing's tables too.
  int marked(const grammar::Table& table, void* thing, const std::string& name) {
    int count = 0;
    for (const grammar::Row& row : table.rows) {
      if (!means_something(row, thing)) continue;
      EXPECT_TRUE(session.widgets.count(name + " " + row.key) > 0 ||
                  (!row.needed && !row.absent.empty()))
          << name << " " << row.key;
      ++count;
      const bool inside = row.kind == grammar::Kind::table && row.children.count(thing) > 0;
      if (inside) count += marked(row.table(), row.children.at(thing, 0), name + " " + row.key);
      for (std::size_t k = 0; row.kind == grammar::Kind::tables && k < row.children.count(thing);
           ++k)
        count += marked(row.table(), row.children.at(thing, k),
                        name + " " + row.key + " " + std::to_string(k + 1));
    }
    return count;
  }
};

TEST_F(RowFields, EveryKeyOfATableHasAField) {
  int count = 0;
  const auto look = [&](const grammar::Table& table, void* thing, const std::string& name) {
    frame(table, thing, name, name);
    count += marked(table, thing, name);
  };
  for (Section& one : site.boundary.sections) look(grammar::section_table(), &one, "section");
  for (Gate& one : site.boundary.gates) look(grammar::gate_table(), &one, "gate");
  for (Object& one : site.objects) look(grammar::object_table(), &one, "object");
  for (GroundForm& one : site.ground.forms) look(grammar::form_table(), &one, "form");
  for (House& one : site.houses) look(grammar::house_table(), &one, "house");
  look(grammar::roof_table(), &*site.roof, "roof");
  look(grammar::place_table(), &*site.place, "place");
  look(grammar::water_table(), &site.waters[0], "water");
  EXPECT_GT(count, 100);
  EXPECT_FALSE(edit.done);
  EXPECT_FALSE(edit.moving);
}

TEST_F(RowFields, AValueTheReaderWouldRefuseIsRefusedAtTheFieldInItsWords) {
  Section& fence = site.boundary.sections[0];
  const std::string path = "boundary.section[0]";
  const auto one_frame = [&] { frame(grammar::section_table(), &fence, path, "section"); };
  one_frame();
  ImGuiIO& io = ImGui::GetIO();
  const Vec2 at = session.widgets.at("section edges");
  const auto press = [&](bool& button) {
    button = true;
    one_frame();
    button = false;
    one_frame();
  };
  const auto type = [&](const char* text) {
    io.MousePos = {static_cast<float>(at.x), static_cast<float>(at.y)};
    one_frame();
    press(io.MouseDown[0]);
    io.KeyCtrl = true;
    press(io.KeysDown['A']);
    io.KeyCtrl = false;
    one_frame();
    io.AddInputCharactersUTF8(text);
    one_frame();
    press(io.KeysDown[kEnter]);
    io.MousePos = {-1.0F, -1.0F};
    one_frame();
  };
  type("[0, 1.5]");
  EXPECT_EQ(session.refusals[path + ".edges"], "found 1.5, allowed whole numbers from 0 to 100000");
  EXPECT_EQ(fence.edges, (std::vector<int>{0, 1}));
  EXPECT_FALSE(edit.done);
  type("[0, 2]");
  EXPECT_EQ(session.refusals.count(path + ".edges"), 0U);
  EXPECT_EQ(fence.edges, (std::vector<int>{0, 2}));
  EXPECT_TRUE(edit.done);
}

// A vent is added, changed and taken out by fields and buttons, as anything else is.
TEST_F(RowFields, AVentIsAddedAndTakenOutByItsButtons) {
  House& house = site.houses[0];
  ASSERT_EQ(house.vents.size(), 1U);
  const auto one_frame = [&] { frame(grammar::house_table(), &house, "house[0]", "house"); };
  const auto press = [&](const std::string& button) {
    one_frame();
    const Vec2 at = session.widgets.at(button);
    ImGuiIO& io = ImGui::GetIO();
    io.MousePos = {static_cast<float>(at.x), static_cast<float>(at.y)};
    one_frame();
    io.MouseDown[0] = true;
    one_frame();
    io.MouseDown[0] = false;
    one_frame();
    io.MousePos = {-1.0F, -1.0F};
    one_frame();
  };
  EXPECT_EQ(session.widgets.count("house vents 1 sill"), 0U);
  press("house vents");
  EXPECT_TRUE(edit.done);
  EXPECT_EQ(house.vents.size(), 2U);
  EXPECT_EQ(session.widgets.count("house vents 1 sill"), 1U);
  EXPECT_EQ(session.widgets.count("house vents 2 sill"), 1U);
  edit = {};
  press("house vents 1 take out");
  EXPECT_TRUE(edit.done);
  EXPECT_EQ(house.vents.size(), 1U);
}

std::string without_vents(const std::string& text) {
  const std::size_t from = text.find("\nvents = ");
  if (from == std::string::npos) return text;
  return text.substr(0, from) + text.substr(text.find('\n', from + 1));
}

TEST(SiteEdits, AVentThatComesOrGoesChangesItsOwnListOnly) {
  std::ifstream in(kYard, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  const Site before = read_site(kYard);
  Site after = before;
  after.houses[0].vents.push_back(before.houses[0].vents[0]);
  after.houses[0].vents[1].edge = 2;
  const std::string more = edit_site(text, before, after);
  EXPECT_EQ(read_site_text(more, kYard).houses[0].vents.size(), 2U);
  // Back again, the list may say its default name; every other line is as it was.
  EXPECT_EQ(without_vents(edit_site(more, after, before)), without_vents(text));
  after.houses[0].vents.clear();
  const std::string none = edit_site(text, before, after);
  EXPECT_TRUE(read_site_text(none, kYard).houses[0].vents.empty());
  const auto first = read_site_text(edit_site(none, after, before), kYard).houses[0].vents;
  ASSERT_EQ(first.size(), 1U);
  EXPECT_EQ(first[0].sill, before.houses[0].vents[0].sill);
}

TEST(SiteEdits, OnlyTheLineOfWhatChangedIsDifferent) {
  std::ifstream in(kYard, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  const Site before = read_site(kYard);
  Site after = before;
  after.dens[0].opening = 0.3;
  after.houses[0].vents[0].sill = 1.75;
  after.boundary.gates[0].vestibule->roofed = true;
  after.place->latitude = 51.25 * geom::kDegree;
  std::string wanted = text;
  const auto put = [&](const std::string& was, const std::string& is) {
    wanted.replace(wanted.find(was), was.size(), is);
  };
  put("opening = 0.25", "opening = 0.3");
  put("sill = 1.8", "sill = 1.75");
  put("window = true }", "window = true, roofed = true }");
  put("latitude = 51.5", "latitude = 51.25");
  EXPECT_EQ(edit_site(text, before, after), wanted);
  EXPECT_EQ(edit_site(text, before, before), text);
}

}  // namespace
}  // namespace hummock::viewer
