// The viewer's work without its window: what is proposed, answered, committed, undone.
#include "viewer/work/study.h"

#include <gtest/gtest.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <thread>

#include "viewer/app/session.h"
#include "viewer/app/show/layers.h"
#include "viewer/app/show/marks.h"
#include "viewer/app/show/stage.h"
#include "viewer/app/tools/editing.h"
#include "viewer/work/merge_results.h"

namespace hummock::viewer {
namespace {

namespace fs = std::filesystem;

struct AtWork : testing::Test {
  fs::path folder;
  fs::path file;
  std::unique_ptr<Session> session;

  AtWork() {
    std::string name = (fs::temp_directory_path() / "hummock_study_XXXXXX").string();
    folder = ::mkdtemp(name.data());
    file = folder / "small.site.toml";
    fs::copy_file(fs::path(HUMMOCK_VIEWER_TEST_DATA) / "small.site.toml", file);
    ::setenv("XDG_STATE_HOME", (folder / "state").c_str(), 1);
    session = std::make_unique<Session>(file);
    begin(*session);
  }
  ~AtWork() override {
    session.reset();
    std::error_code ignored;
    fs::remove_all(folder, ignored);
  }
  template <class Done>
  bool wait(Done done) {
    const auto start = std::chrono::steady_clock::now();
    while (!done()) {
      session->inbox.open();
      if (std::chrono::steady_clock::now() - start > std::chrono::seconds(60)) return false;
      std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    return true;
  }
  bool wait_current() {
    return wait([&] { return session->study.figures_current(); });
  }
  Met margin_met() const {
    for (const BriefRow& row : session->study.judged()->results.brief)
      if (row.what == "leap.margin") return row.met;
    return Met::not_checked;
  }
  Object block_at(Vec2 at) const {
    Object o = session->site->objects[0];
    o.at = at;
    return o;
  }
};

TEST_F(AtWork, figures_are_never_called_current_between_a_change_and_its_check) {
  ASSERT_TRUE(wait_current());
  EXPECT_EQ(margin_met(), Met::met);
  commit_object(*session, 0, block_at({3.0, 0.55}), "move block");
  EXPECT_FALSE(session->study.figures_current());
  ASSERT_TRUE(wait_current());
  EXPECT_EQ(margin_met(), Met::short_of);
  undo(*session);
  EXPECT_FALSE(session->study.figures_current());
  ASSERT_TRUE(wait_current());
  EXPECT_EQ(margin_met(), Met::met);
}

TEST_F(AtWork, what_is_answered_live_is_what_a_check_of_the_same_site_says) {
  ASSERT_TRUE(wait_current());
  for (const double y : {1.6, 1.0, 0.55}) {
    const auto serial_before = session->study.live() ? session->study.live()->serial : 0;
    propose_object(*session, 0, block_at({3.0, y}));
    EXPECT_FALSE(session->study.figures_current());
    ASSERT_TRUE(wait(
        [&] { return session->study.live() && session->study.live()->serial > serial_before; }));
    const leap::Result live = *session->study.live()->leap;
    const leap::Result full = leap::analyse(*session->study.live()->model);
    EXPECT_EQ(live.margin, full.margin) << "y = " << y;
    EXPECT_EQ(live.escape_leap_m, full.escape_leap_m) << "y = " << y;
    for (const leap::ObjectRow& row : live.objects)
      EXPECT_TRUE(row.remedies.empty()) << "sought while the thing is still in hand";
  }
  EXPECT_FALSE(session->document.dirty()) << "a proposal is not a change";
  drop_proposal(*session);
  ASSERT_TRUE(wait_current());
  EXPECT_EQ(margin_met(), Met::met);
}

TEST_F(AtWork, of_many_proposals_the_last_is_always_answered) {
  ASSERT_TRUE(wait_current());
  for (int k = 0; k <= 40; ++k) {
    propose_object(*session, 0, block_at({3.0, 2.5 - 0.04 * k}));
    session->inbox.open();
  }
  ASSERT_TRUE(wait([&] {
    return session->study.live() &&
           std::abs(session->study.live()->site->objects[0].at.y - 0.9) < 1e-9;
  }));
}

TEST_F(AtWork, an_edit_the_reader_refuses_changes_nothing_and_says_why) {
  ASSERT_TRUE(wait_current());
  const std::string before = session->document.text();
  Object o = block_at({3.0, 2.5});
  o.size = {0.8, 0.8, 0.0};
  commit_object(*session, 0, o, "flatten block");
  EXPECT_EQ(session->document.text(), before);
  EXPECT_NE(session->note.find("Not done"), std::string::npos);
  ASSERT_TRUE(wait_current());
}

TEST_F(AtWork, adding_duplicating_and_deleting_are_single_steps_of_undo) {
  ASSERT_TRUE(wait([&] { return session->shown.model != nullptr; }));
  const std::string before = session->document.text();
  add_object(*session, "boulder");
  ASSERT_TRUE(wait([&] { return session->shown.model->site.objects.size() == 2; }));
  EXPECT_EQ(session->chosen, (Chosen{Chosen::Kind::object, 1}));
  duplicate_chosen(*session);
  ASSERT_TRUE(wait([&] { return session->shown.model->site.objects.size() == 3; }));
  EXPECT_NE(session->site->objects[1].name, session->site->objects[2].name);
  delete_chosen(*session);
  ASSERT_TRUE(wait([&] { return session->shown.model->site.objects.size() == 2; }));
  for (int k = 0; k < 3; ++k) undo(*session);
  EXPECT_EQ(session->document.text(), before);
}

TEST_F(AtWork, a_stroke_raises_the_ground_under_it_and_undo_lowers_it_again) {
  ASSERT_TRUE(wait([&] { return session->shown.model != nullptr; }));
  session->brush.kind = StrokeKind::raise;
  session->brush.radius = 1.0;
  session->brush.strength = 0.4;
  session->brush.path = {{1.5, 1.5}};
  commit_stroke(*session);
  const auto revision = session->document.revision();
  ASSERT_TRUE(wait([&] { return session->shown.revision == revision; }));
  EXPECT_NEAR(geom::height_at(session->shown.model->ground, {1.6, 1.6}), 0.4, 0.05);
  undo(*session);
  const auto back = session->document.revision();
  ASSERT_TRUE(wait([&] { return session->shown.revision == back; }));
  EXPECT_NEAR(geom::height_at(session->shown.model->ground, {1.6, 1.6}), 0.0, 1e-12);
}

TEST_F(AtWork, a_text_that_cannot_be_read_keeps_the_last_model_and_says_so) {
  ASSERT_TRUE(wait_current());
  session->document.change("nonsense = [", "break it");
  restudy(*session);
  EXPECT_FALSE(session->study.figures_current());
  EXPECT_FALSE(session->study.trouble().empty());
  EXPECT_NE(session->shown.model, nullptr);
  undo(*session);
  ASSERT_TRUE(wait_current());
}

TEST_F(AtWork, the_height_cap_is_answered_where_the_block_stands) {
  ASSERT_TRUE(wait_current());
  const auto middle = session->study.cap_at({3.0, 2.5});
  const auto by_wall = session->study.cap_at({3.0, 0.4});
  ASSERT_TRUE(middle && by_wall);
  EXPECT_GT(*middle, *by_wall);
}

TEST(MergeResults, takes_over_only_what_was_asked_and_its_rows) {
  CheckResults a;
  a.brief = {BriefRow{}, BriefRow{}};
  a.brief[0].what = "leap.margin";
  a.brief[1].what = "dig.least_length_m";
  CheckResults b = a;
  b.brief[0].met = Met::met;
  b.brief[1].met = Met::short_of;
  b.dig.emplace();
  b.leap.emplace();
  take_over(a, b, {"dig"});
  EXPECT_TRUE(a.dig.has_value());
  EXPECT_FALSE(a.leap.has_value());
  EXPECT_EQ(a.brief[0].met, Met::not_checked);
  EXPECT_EQ(a.brief[1].met, Met::short_of);
}

// An either stands by its rows, whichever half of the work answered them.
TEST(MergeResults, settles_an_either_by_the_rows_taken_over) {
  CheckResults quick;
  quick.brief = {BriefRow{}, BriefRow{}, BriefRow{}};
  quick.brief[0].kind = RowKind::either;
  quick.brief[0].sets = {{"one", Standing::not_checked, {1}}, {"two", Standing::not_checked, {2}}};
  quick.brief[1].what = "space.plan_area_m2";
  quick.brief[1].standing = Standing::short_of;
  quick.brief[2].what = "dig.least_length_m";
  CheckResults slow = quick;
  slow.brief[1].standing = Standing::not_checked;
  for (const Standing standing : {Standing::met, Standing::short_of}) {
    slow.brief[2].standing = standing;
    take_over(quick, slow, {"dig"});
    EXPECT_EQ(quick.brief[0].standing, standing);
  }
}

TEST(Ticks, are_round_and_inside) {
  EXPECT_EQ(round_ticks(0.0, 60.0, 5), (std::vector<double>{0, 20, 40, 60}));
  const auto ticks = round_ticks(-0.5, 0.5, 5);
  EXPECT_EQ(ticks.front(), -0.4);
  EXPECT_NEAR(ticks[2], 0.0, 1e-12);
}

}  // namespace
}  // namespace hummock::viewer
