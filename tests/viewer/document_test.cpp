#include "viewer/document/document.h"

#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <thread>

#include "engine/base/input_error.h"
#include "engine/site/read_site.h"
#include "viewer/app/start/preferences.h"
#include "viewer/app/tools/editing.h"
#include "viewer/document/recovery.h"
#include "viewer/document/site_edits.h"

namespace hummock::viewer {
namespace {

namespace fs = std::filesystem;

std::string read(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

void write(const fs::path& file, const std::string& text) {
  std::ofstream(file, std::ios::binary) << text;
}

struct Documents : testing::Test {
  fs::path folder;
  fs::path site;
  std::string text = read(fs::path(HUMMOCK_VIEWER_TEST_DATA) / "small.site.toml");
  Documents() {
    std::string name = (fs::temp_directory_path() / "hummock_documents_XXXXXX").string();
    folder = ::mkdtemp(name.data());
    site = folder / "small.site.toml";
    write(site, text);
    ::setenv("XDG_STATE_HOME", (folder / "state").c_str(), 1);
  }
  ~Documents() override {
    std::error_code ignored;
    fs::remove_all(folder, ignored);
  }
  Site parsed(const std::string& t) const { return read_site_text(t, site); }
};

TEST_F(Documents, undo_goes_all_the_way_back_and_redo_all_the_way_forward) {
  Document d(site);
  for (int i = 0; i < 150; ++i) d.change(text + "# " + std::to_string(i) + "\n", "step");
  for (int i = 0; i < 150; ++i) d.undo();
  EXPECT_EQ(d.text(), text);
  EXPECT_FALSE(d.can_undo());
  for (int i = 0; i < 150; ++i) d.redo();
  EXPECT_EQ(d.text(), text + "# 149\n");
  EXPECT_FALSE(d.can_redo());
}

TEST_F(Documents, a_change_after_undo_drops_what_was_undone) {
  Document d(site);
  d.change("a = 1\n", "one");
  d.change("a = 2\n", "two");
  d.undo();
  d.change("a = 3\n", "three");
  EXPECT_FALSE(d.can_redo());
  d.undo();
  EXPECT_EQ(d.text(), "a = 1\n");
}

TEST_F(Documents, the_steps_of_one_gesture_are_one_undo) {
  Document d(site);
  d.change("a = 1\n", "type", "field");
  d.change("a = 12\n", "type", "field");
  d.change("a = 123\n", "type", "field");
  d.undo();
  EXPECT_EQ(d.text(), text);
}

TEST_F(Documents, saving_what_was_undone_to_the_start_leaves_the_file_byte_for_byte) {
  Document d(site);
  d.change("a = 1\n", "one");
  d.undo();
  EXPECT_FALSE(d.dirty());
  EXPECT_EQ(d.save(), Saved::yes);
  EXPECT_EQ(read(site), text);
}

TEST_F(Documents, unsaved_work_is_found_by_the_next_run_and_gone_after_saving) {
  {
    Document d(site);
    d.change("a = 1\n", "one");
  }
  Document next(site);
  ASSERT_TRUE(next.recoverable().has_value());
  EXPECT_FALSE(next.recoverable_is_of_another_text());
  next.take_recovered();
  EXPECT_EQ(next.text(), "a = 1\n");
  EXPECT_EQ(next.save(), Saved::yes);
  EXPECT_FALSE(Document(site).recoverable().has_value());
}

TEST_F(Documents, unsaved_work_of_a_file_changed_since_says_so) {
  {
    Document d(site);
    d.change("a = 1\n", "one");
  }
  write(site, text + "# theirs\n");
  EXPECT_TRUE(Document(site).recoverable_is_of_another_text());
}

TEST_F(Documents, half_a_recovery_file_is_not_offered) {
  {
    Document d(site);
    d.change("a = 1\n", "one");
  }
  const fs::path kept = recovery_file(site);
  const std::string whole = read(kept);
  write(kept, whole.substr(0, whole.size() - 2));
  EXPECT_FALSE(Document(site).recoverable().has_value());
}

TEST_F(Documents, a_file_changed_by_someone_else_is_noticed_and_not_overwritten) {
  Document d(site);
  d.change("a = 1\n", "one");
  EXPECT_EQ(d.look_at_disk(), OnDisk::as_we_know_it);
  write(site, "theirs = 1\n");
  EXPECT_EQ(d.look_at_disk(), OnDisk::changed);
  EXPECT_EQ(d.save(), Saved::changed_on_disk);
  EXPECT_EQ(read(site), "theirs = 1\n");
  d.take_from_disk();
  EXPECT_EQ(d.text(), "theirs = 1\n");
  d.undo();
  EXPECT_EQ(d.text(), "a = 1\n");
  d.note_disk();
  EXPECT_EQ(d.save(), Saved::yes);
  EXPECT_EQ(read(site), "a = 1\n");
}

TEST_F(Documents, a_file_that_is_gone_can_be_saved_again) {
  Document d(site);
  fs::remove(site);
  EXPECT_EQ(d.look_at_disk(), OnDisk::gone);
  EXPECT_EQ(d.save(), Saved::yes);
  EXPECT_EQ(read(site), text);
}

TEST_F(Documents, a_folder_or_nothing_is_refused) {
  EXPECT_THROW(Document(folder / "none.site.toml"), InputError);
  EXPECT_THROW(Document{folder}, InputError);
}

// A child saves two texts in turn as fast as it can and is killed at some moment; whatever moment
// that was, the file is one of the two, whole.
TEST_F(Documents, kill_in_the_midst_of_saving_leaves_the_old_or_the_new_file_whole) {
  const std::string a = text + std::string(200000, '#') + "\n";
  const std::string b = text + std::string(100000, '%') + "\n";
  for (int round = 0; round < 25; ++round) {
    write(site, a);
    const pid_t child = ::fork();
    if (child == 0) {
      try {
        Document d(site);
        for (int i = 0;; ++i) {
          d.change(i % 2 == 0 ? b : a, "turn");
          d.save();
        }
      } catch (...) {
        ::_exit(1);
      }
    }
    std::this_thread::sleep_for(std::chrono::microseconds(1500 + 731 * round));
    ::kill(child, SIGKILL);
    ::waitpid(child, nullptr, 0);
    const std::string now = read(site);
    EXPECT_TRUE(now == a || now == b) << "round " << round << ", " << now.size() << " bytes";
  }
}

TEST_F(Documents, moving_a_thing_changes_only_its_place) {
  const Site before = parsed(text);
  Object moved = before.objects[0];
  moved.at = {1.25, 0.5};
  const std::string after = edit_object(text, 0, before.objects[0], moved);
  std::string wanted = text;
  wanted.replace(wanted.find("[3.0, 2.5]"), 10, "[1.25, 0.5]");
  EXPECT_EQ(after, wanted);
}

TEST_F(Documents, adding_and_removing_again_is_the_same_site_and_keeps_the_comments) {
  Object stone;
  stone.kind = ObjectKind::boulder;
  stone.name = "stone";
  stone.at = {1, 1};
  stone.size = {0.5, 0.4, 0.3};
  stone.seed = 3;
  stone.climbable = true;
  stone.turn = 30.0 * geom::kDegree;
  const std::string added = append_object(text, stone, folder);
  const Site site_added = parsed(added);
  ASSERT_EQ(site_added.objects.size(), 2U);
  EXPECT_EQ(site_added.objects[1].name, "stone");
  EXPECT_EQ(site_added.objects[1].size, stone.size);
  EXPECT_NEAR(site_added.objects[1].turn, stone.turn, 1e-9);
  EXPECT_TRUE(site_added.objects[1].climbable);
  EXPECT_NE(added.find("# moved by the test"), std::string::npos);
  const Site back = parsed(remove_object(added, 1));
  EXPECT_EQ(back.objects.size(), 1U);
}

TEST_F(Documents, a_tree_written_is_the_tree_read) {
  Object tree;
  tree.kind = ObjectKind::tree;
  tree.name = "birch";
  tree.at = {2, 2};
  tree.trunk_diameter = 0.15;
  tree.trunk_height = 2.0;
  tree.crown = Crown{"cone", {2.0, 1.5, 2.5}, 1.25, 0.8, Season{{11, 1}, {4, 15}}};
  const Site site_read = parsed(append_object(text, tree, folder));
  const Object& got = site_read.objects.at(1);
  EXPECT_EQ(got.crown->shape, "cone");
  EXPECT_EQ(got.crown->size, tree.crown->size);
  EXPECT_EQ(got.crown->bare->to.day, 15);
  EXPECT_EQ(got.crown->bare->from.month, 11);
}

TEST_F(Documents, fence_corners_heights_and_overhangs_are_edited_in_place) {
  const Site before = parsed(text);
  const std::string moved = edit_corner(text, before.boundary.outline, 2, {6.5, 5.25});
  EXPECT_EQ(parsed(moved).boundary.outline[2], (Vec2{6.5, 5.25}));
  Section section = before.boundary.sections[0];
  section.height = 2.4;
  section.overhang = Overhang{0.6, 30.0 * geom::kDegree};
  const std::string raised = edit_section(text, 0, before.boundary.sections[0], section);
  EXPECT_EQ(parsed(raised).boundary.sections[0].height, 2.4);
  ASSERT_TRUE(parsed(raised).boundary.sections[0].overhang.has_value());
  const std::string bare = edit_section(raised, 0, section, before.boundary.sections[0]);
  EXPECT_FALSE(parsed(bare).boundary.sections[0].overhang.has_value());
  EXPECT_NE(bare.find("# closed, solid all round"), std::string::npos);
}

TEST_F(Documents, strokes_of_every_kind_are_ground_forms_the_reader_takes) {
  for (const StrokeKind kind :
       {StrokeKind::raise, StrokeKind::lower, StrokeKind::smooth, StrokeKind::flatten})
    for (const bool dab : {true, false}) {
      Brush brush;
      brush.kind = kind;
      brush.radius = 0.8;
      brush.path = dab ? std::vector<Vec2>{{2, 2}}
                       : std::vector<Vec2>{{2, 2}, {2.6, 2.2}, {3.1, 2.9}, {3.4, 3.6}};
      const auto forms = forms_of(brush, {});
      ASSERT_FALSE(forms.empty());
      const Site after = parsed(append_forms(text, forms));
      EXPECT_EQ(after.ground.forms.size(), forms.size());
    }
}

// Raised cosines of radius r, half as high, r/2 apart along a line: their sum on the line is the
// full depth all along, away from the ends (sum of four phases of the cosine is zero).
TEST_F(Documents, hollows_along_a_stroke_make_an_even_trough) {
  Brush brush;
  brush.kind = StrokeKind::lower;
  brush.radius = 1.0;
  brush.strength = 0.3;
  for (int k = 0; k <= 40; ++k) brush.path.push_back({k * 0.1, 0.0});
  const auto forms = forms_of(brush, {});
  for (double x = 1.0; x <= 3.0; x += 0.05) {
    double depth = 0.0;
    for (const GroundForm& f : forms) {
      const double d = std::abs(f.at.x - x);
      if (d < f.radius) depth += f.height * (1.0 + std::cos(geom::kPi * d / f.radius)) / 2.0;
    }
    EXPECT_NEAR(depth, 0.3, 0.02) << "at " << x;
  }
}

TEST_F(Documents, preferences_come_back_and_a_broken_file_is_the_default) {
  const fs::path file = folder / "config" / "viewer.json";
  Preferences p;
  p.window_width = 1500;
  p.left_width = 30.0;
  p.hints_seen = true;
  EXPECT_TRUE(write_preferences(file, p));
  EXPECT_EQ(read_preferences(file).window_width, 1500);
  EXPECT_TRUE(read_preferences(file).hints_seen);
  write(file, "{ \"window_width\": 99999999, \"left_width\": \"wide\" ");
  EXPECT_EQ(read_preferences(file).window_width, Preferences{}.window_width);
  write(file, "{ \"window_width\": 99999999, \"left_width\": \"wide\" }");
  EXPECT_EQ(read_preferences(file).window_width, 16000);
  EXPECT_EQ(read_preferences(file).left_width, Preferences{}.left_width);
}

}  // namespace
}  // namespace hummock::viewer
