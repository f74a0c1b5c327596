// What the check says: the verdict, what to look at first, and the brief row by row.
#include <algorithm>
#include <cstdio>
#include <numeric>
#include <string>
#include <vector>

#include "viewer/app/show/marks.h"
#include "viewer/scene/tone.h"
#include "viewer/ui/panels.h"
#include "viewer/ui/style.h"
#include "viewer/work/merge_results.h"

namespace hummock::viewer {
namespace {

Colour tone_of(Severity weight) {
  return weight == Severity::way_out    ? tone::short_of()
         : weight == Severity::short_of ? tone::short_of()
                                        : tone::tight();
}
const char* sign_of(Severity weight) {
  return weight == Severity::way_out ? "▲" : weight == Severity::short_of ? "▼" : "○";
}
Colour tone_of(Met met) {
  return met == Met::met ? tone::met() : met == Met::short_of ? tone::short_of() : tone::unknown();
}
const char* sign_of(Met met) {
  return met == Met::met ? "✓" : met == Met::short_of ? "▼" : "○";
}

// "space.plan_area_m2" as words, for those who do not read keys.
std::string plain_words(const std::string& key) {
  std::string out;
  for (const char c : key.substr(key.find('.') + 1)) out += c == '_' || c == '.' ? ' ' : c;
  for (const auto& [end, unit] : {std::pair<std::string, std::string>{" m2", " (m²)"},
                                  {" m3", " (m³)"},
                                  {" m", " (m)"},
                                  {" h", " (h)"},
                                  {" deg", " (°)"}}) {
    if (out.size() > end.size() && out.compare(out.size() - end.size(), end.size(), end) == 0) {
      out.replace(out.size() - end.size(), end.size(), unit);
      break;
    }
  }
  return key.substr(0, key.find('.')) + ": " + out;
}

std::string number(double v) {
  char text[32];
  std::snprintf(text, sizeof text, "%.4g", v);
  return text;
}

// The state of the figures, always in sight.
void currency(Session& s) {
  const Study& study = s.study;
  if (!study.trouble().empty()) {
    toned(tone::short_of(), "▼ The site cannot be built as written");
    ImGui::PushTextWrapPos(0.0F);
    ImGui::TextUnformatted(study.trouble().c_str());
    ImGui::PopTextWrapPos();
    soft_text("What you see is the last state that could.");
  } else if (study.figures_current()) {
    toned(tone::met(), "● These figures are current");
  } else if (study.answering() || leap_is_live(s)) {
    toned(tone::tight(), "◐ Answering live; the list is of before the move");
  } else if (study.judged() && study.judged()->revision == study.asked_revision()) {
    toned(tone::tight(), "◐ Current but for those marked ◐, being worked out …");
  } else if (study.judged()) {
    toned(tone::tight(), ("◐ Figures of before the change; " +
                          (study.stage().empty() ? std::string("working") : study.stage()) + " …")
                             .c_str());
  } else {
    toned(tone::tight(),
          ("◐ " + (study.stage().empty() ? std::string("Working") : study.stage()) + " …").c_str());
  }
}

// A row one can click: sign, words, chosen or not.
bool row(Session& s, int id, const char* sign, Colour colour, const std::string& words,
         const std::string& under, bool chosen, const char* name) {
  ImGui::PushID(id);
  const float em = ImGui::GetFontSize();
  const float wrap = ImGui::GetContentRegionAvail().x - em * 1.6F;
  const ImVec2 size = ImGui::CalcTextSize(words.c_str(), nullptr, false, wrap);
  const ImVec2 more =
      under.empty() ? ImVec2{0, 0} : ImGui::CalcTextSize(under.c_str(), nullptr, false, wrap);
  const float pad = em * 0.35F;
  const float height = size.y + (under.empty() ? 0.0F : more.y + 2.0F) + 2.0F * pad;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const bool pressed = ImGui::Selectable("##row", chosen, 0, {0, height});
  mark_item(s, (name + std::to_string(id)).c_str());
  ImDrawList* draw = ImGui::GetWindowDrawList();
  draw->AddText({at.x + em * 0.2F, at.y + pad}, imgui_packed(colour), sign);
  draw->AddText(nullptr, 0.0F, {at.x + em * 1.5F, at.y + pad}, imgui_packed(tone::ink()),
                words.c_str(), nullptr, wrap);
  if (!under.empty())
    draw->AddText(nullptr, 0.0F, {at.x + em * 1.5F, at.y + pad + size.y + 2.0F},
                  imgui_packed(tone::ink_soft()), under.c_str(), nullptr, wrap);
  ImGui::PopID();
  return pressed;
}

void finding_list(Session& s, const Judged& judged) {
  heading("Look at first");
  if (judged.findings.empty()) soft_text("Nothing stands out.");
  for (std::size_t i = 0; i < judged.findings.size(); ++i) {
    const Finding& f = judged.findings[i];
    const int id = static_cast<int>(i);
    const bool old = judged.stale.count(f.analysis) > 0;
    if (row(s, id, sign_of(f.weight), tone_of(f.weight), (old ? "◐ " : "") + f.text, f.to_do,
            s.finding.finding == id, "finding "))
      show_finding(s, id);
  }
}

std::string row_words(const BriefRow& r) {
  std::string out = plain_words(r.what);
  out += r.value ? "  " + number(*r.value) : "  –";
  return out;
}

std::string row_under(const BriefRow& r) {
  std::string out = std::string(to_string(r.met)) + ": " + r.required;
  if (r.margin) out += ", margin " + number(*r.margin);
  if (!r.where.empty()) out += ", " + r.where;
  return out;
}

void brief_list(Session& s, const Judged& judged) {
  const auto& brief = judged.results.brief;
  std::vector<std::size_t> order(brief.size());
  std::iota(order.begin(), order.end(), 0U);
  const auto rank = [&](std::size_t i) {
    return brief[i].met == Met::short_of ? 0 : brief[i].met == Met::not_checked ? 1 : 2;
  };
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
  const auto count = [&](Met met) {
    return std::count_if(brief.begin(), brief.end(), [&](const auto& r) { return r.met == met; });
  };
  heading("The brief");
  soft_text((std::to_string(count(Met::short_of)) + " short, " +
             std::to_string(count(Met::not_checked)) + " not checked, " +
             std::to_string(count(Met::met)) + " met")
                .c_str());
  for (const std::size_t i : order) {
    const BriefRow& r = brief[i];
    const int id = static_cast<int>(i);
    const bool old = judged.stale.count(analysis_of(r.what)) > 0;
    if (row(s, id, old ? "◐" : sign_of(r.met), tone_of(r.met), row_words(r), row_under(r),
            s.finding.row == id, "brief "))
      show_row(s, id);
    tip(((r.note.empty() ? "" : r.note + "\n") + "Source: " + r.source + "\n" + r.what).c_str());
  }
}

}  // namespace

void findings_panel(Session& s, const Layout& l) {
  ImGui::SetNextWindowPos({0, l.top});
  ImGui::SetNextWindowSize({l.left, l.screen.y - l.top - l.status});
  ImGui::Begin("findings", nullptr,
               ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoSavedSettings |
                   ImGuiWindowFlags_NoBringToFrontOnFocus);
  currency(s);
  const auto& judged = s.study.judged();
  if (judged) {
    ImGui::PushTextWrapPos(0.0F);
    ImGui::TextUnformatted(judged->verdict.c_str());
    ImGui::PopTextWrapPos();
    const bool of_now = s.study.trouble().empty() && !s.study.answering() && !leap_is_live(s) &&
                        judged->revision == s.study.asked_revision();
    const float fade = of_now ? 1.0F : 0.55F;
    ImGui::PushStyleVar(ImGuiStyleVar_Alpha, fade);
    finding_list(s, *judged);
    brief_list(s, *judged);
    ImGui::PopStyleVar();
  }
  ImGui::End();
}

}  // namespace hummock::viewer
