// The day and the year as two strips to drag along; over the day lies the curve of shade.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>

#include "viewer/app/show/day.h"
#include "viewer/scene/tone.h"
#include "viewer/ui/panels.h"
#include "viewer/ui/style.h"

namespace hummock::viewer {
namespace {

struct Strip {
  ImVec2 at;
  ImVec2 size;
  float x(double share) const { return at.x + static_cast<float>(share) * size.x; }
  float y(double share) const { return at.y + size.y * (1.0F - static_cast<float>(share)); }
};

// A strip that gives the share along it while it is dragged.
std::optional<double> drag_strip(Session& s, const char* id, const Strip& strip) {
  ImGui::SetCursorScreenPos(strip.at);
  ImGui::InvisibleButton(id, strip.size);
  mark_item(s, id);
  // Also its ends, so that a test can aim.
  s.widgets[std::string(id) + " from"] = {strip.at.x, strip.at.y + strip.size.y / 2.0};
  s.widgets[std::string(id) + " to"] = {strip.at.x + strip.size.x, strip.at.y + strip.size.y / 2.0};
  if (!ImGui::IsItemActive()) return std::nullopt;
  return std::clamp((ImGui::GetIO().MousePos.x - strip.at.x) / strip.size.x, 0.0F, 1.0F);
}

double hour_of(const hummock::Place& place, sun::Date date, sun::Instant when) {
  return (when.ut_days - sun::instant(place, date, 0.0).ut_days) * 24.0;
}

void night_and_day(const Strip& strip, const hummock::Place& place, sun::Date date) {
  ImDrawList* draw = ImGui::GetWindowDrawList();
  draw->AddRectFilled(strip.at, {strip.x(1.0), strip.y(0.0)}, imgui_packed(hex("#C9CCCB")), 3.0F);
  const sun::RiseSet rise = sun::rise_set(place, date);
  double from = 0.0;
  double to = rise.kind == sun::DayKind::down_all_day ? 0.0 : 24.0;
  if (rise.sunrise) from = hour_of(place, date, *rise.sunrise);
  if (rise.sunset) to = hour_of(place, date, *rise.sunset);
  from = std::clamp(from, 0.0, 24.0);
  to = std::clamp(to, from, 24.0);
  draw->AddRectFilled({strip.x(from / 24.0), strip.at.y}, {strip.x(to / 24.0), strip.y(0.0)},
                      imgui_packed(hex("#F3E7C6")));
}

// Shaded share of the ground against the clock, filled.
void shade_curve(const Session& s, const Strip& strip, const hummock::Place& place,
                 sun::Date date) {
  const auto& day = s.study.day();
  if (!day || day->times.size() != day->shaded_share.size() || day->times.empty()) return;
  if (!(day->date == date)) return;
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const Colour colour = mix(tone::ink(), tone::accent(), 0.5F);
  for (std::size_t i = 1; i < day->times.size(); ++i) {
    const double h0 = hour_of(place, date, day->times[i - 1].when);
    const double h1 = hour_of(place, date, day->times[i].when);
    const ImVec2 a{strip.x(h0 / 24.0), strip.y(0.92 * day->shaded_share[i - 1])};
    const ImVec2 b{strip.x(h1 / 24.0), strip.y(0.92 * day->shaded_share[i])};
    draw->AddQuadFilled({a.x, strip.y(0.0)}, a, b, {b.x, strip.y(0.0)},
                        imgui_packed(colour, 0.28F));
    draw->AddLine(a, b, imgui_packed(colour), 1.5F);
  }
}

void handle(const Strip& strip, double share) {
  ImDrawList* draw = ImGui::GetWindowDrawList();
  const float x = strip.x(share);
  draw->AddLine({x, strip.at.y - 2.0F}, {x, strip.y(0.0) + 2.0F}, imgui_packed(tone::accent()),
                2.5F);
  draw->AddCircleFilled({x, strip.at.y - 2.0F}, 4.5F, imgui_packed(tone::accent()));
}

void hour_marks(const Strip& strip) {
  ImDrawList* draw = ImGui::GetWindowDrawList();
  for (int h = 0; h <= 24; h += 3) {
    const float x = strip.x(h / 24.0);
    draw->AddLine({x, strip.y(0.0)}, {x, strip.y(0.0) + 3.0F}, imgui_packed(tone::ink_soft()));
    const std::string text = std::to_string(h);
    const float half = ImGui::CalcTextSize(text.c_str()).x / 2.0F;
    draw->AddText({x - half, strip.y(0.0) + 2.0F}, imgui_packed(tone::ink_soft()), text.c_str());
  }
}

void month_marks(const Session& s, const Strip& strip) {
  static constexpr const char* kLetters[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                             "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  ImDrawList* draw = ImGui::GetWindowDrawList();
  draw->AddRectFilled(strip.at, {strip.x(1.0), strip.y(0.0)}, imgui_packed(tone::paper_deep()),
                      3.0F);
  DayTime t = s.time;
  const double days = days_in_year(t.year);
  int month = 0;
  for (t.day = 1; t.day <= days; ++t.day) {
    if (date_of(t).month == month) continue;
    month = date_of(t).month;
    const float x = strip.x((t.day - 1) / days);
    draw->AddLine({x, strip.at.y}, {x, strip.y(0.0)}, imgui_packed(tone::hair()));
    draw->AddText({x + 3.0F, strip.y(0.0) + 2.0F}, imgui_packed(tone::ink_soft()),
                  kLetters[month - 1]);
  }
}

// What the curve says at the chosen hour.
std::string curve_words(const Session& s, const hummock::Place& place, sun::Date date) {
  const auto sun = sun_now(s);
  char text[160];
  std::string out;
  if (sun && sun->elevation > 0.0) {
    std::snprintf(text, sizeof text, "sun %.0f° high, from %.0f°", sun->elevation / geom::kDegree,
                  sun->azimuth / geom::kDegree);
    out = text;
  } else {
    out = "the sun is down";
  }
  const auto& day = s.study.day();
  if (!day || !(day->date == date) || day->times.empty()) return out;
  std::size_t best = 0;
  for (std::size_t i = 0; i < day->times.size(); ++i)
    if (std::abs(hour_of(place, date, day->times[i].when) - s.time.hour) <
        std::abs(hour_of(place, date, day->times[best].when) - s.time.hour))
      best = i;
  if (std::abs(hour_of(place, date, day->times[best].when) - s.time.hour) > 0.6) return out;
  std::snprintf(text, sizeof text, "; %.0f %% of the ground in shade, %.0f m² an animal",
                100.0 * day->shaded_share[best], day->shaded_m2_per_animal[best]);
  return out + text;
}

void left_column(Session& s, float width) {
  ImGui::BeginGroup();
  ImGui::PushFont(large_font());
  ImGui::TextUnformatted(hour_words(s.time.hour).c_str());
  ImGui::PopFont();
  ImGui::SameLine(width * 0.62F);
  if (toggle_button(s.time.play_day ? "Stop##day" : "Play##day", s.time.play_day))
    s.time.play_day = !s.time.play_day;
  mark_item(s, "play day");
  tip("Let the day go by (Space)");
  ImGui::AlignTextToFramePadding();
  ImGui::TextUnformatted(date_words(s.time).c_str());
  ImGui::SameLine(width * 0.62F);
  if (toggle_button(s.time.play_year ? "Stop##year" : "Play##year", s.time.play_year))
    s.time.play_year = !s.time.play_year;
  mark_item(s, "play year");
  tip("Let the year go by at this hour");
  ImGui::EndGroup();
}

void strips(Session& s, const hummock::Place& place, const Layout& l, float column) {
  const float em = ImGui::GetFontSize();
  const ImVec2 base = ImGui::GetWindowPos();
  const float from = base.x + column + em * 1.4F;
  const float length = l.scene_size.x - column - em * 2.8F;
  const Strip day{{from, base.y + em * 1.9F}, {length, em * 1.7F}};
  const Strip year{{from, base.y + em * 5.05F}, {length, em * 0.75F}};
  const sun::Date date = date_of(s.time);
  night_and_day(day, place, date);
  shade_curve(s, day, place, date);
  hour_marks(day);
  handle(day, s.time.hour / 24.0);
  month_marks(s, year);
  const double days = days_in_year(s.time.year);
  handle(year, (s.time.day - 0.5) / days);
  const std::string words = curve_words(s, place, date);
  ImGui::GetWindowDrawList()->AddText({day.at.x, base.y + em * 0.35F}, imgui_packed(tone::ink()),
                                      words.c_str());
  if (const auto share = drag_strip(s, "day strip", day)) set_hour(s, *share * 24.0);
  tip("The day: drag along it. The curve is the share of the ground in shade.");
  if (const auto share = drag_strip(s, "year strip", year))
    set_day(s, 1 + static_cast<int>(*share * (days - 0.01)));
  tip("The year: drag along it");
}

}  // namespace

void time_bar(Session& s, const Layout& l) {
  ImGui::SetNextWindowPos({l.left, l.screen.y - l.status - l.time});
  ImGui::SetNextWindowSize({l.scene_size.x, l.time});
  ImGui::Begin("time", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoBringToFrontOnFocus);
  const Model* m = model(s);
  if (m == nullptr) {
    soft_text("Reading …");
  } else if (!m->site.place) {
    soft_text("The site names no [place], so there is no sun to follow. The light is for the eye.");
  } else {
    const float column = ImGui::GetFontSize() * 10.5F;
    left_column(s, column);
    strips(s, *m->site.place, l, column);
  }
  ImGui::End();
}

}  // namespace hummock::viewer
