// What the check says: the verdict, what to look at first, and the brief row by row.
#include <algorithm>
#include <cstdio>
#include <numeric>
#include <string>
#include <vector>

#include "engine/brief/told.h"
#include "engine/check/catalogue.h"
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
bool stands(Standing s) {
  return s == Standing::met;
}
Colour tone_of(Standing s) {
  return s == Standing::not_asked || s == Standing::waived ? tone::unknown()
         : stands(s)                                       ? tone::met()
         : s == Standing::short_of                         ? tone::short_of()
         : s == Standing::not_checked                      ? tone::unknown()
                                                           : tone::tight();
}
const char* sign_of(Standing s) {
  return s == Standing::not_asked ? "–" : stands(s) ? "✓" : s == Standing::short_of ? "▼" : "○";
}

std::string margin_words(const BriefRow& r) {
  const FigureInfo* figure = figure_info(r.what);
  char text[32];
  std::snprintf(text, sizeof text, "%+.*f", figure == nullptr ? 2 : figure->decimals, *r.margin);
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
  const std::string value = value_of(r, figure_info);
  return title_of(r, figure_info) + (value.empty() ? "" : "  " + value);
}

std::string row_under(const BriefRow& r, const std::vector<BriefRow>& all) {
  std::string out = std::string(in_words(r.standing)) + ": " + limit_of(r, figure_info);
  if (r.margin) out += ", margin " + margin_words(r);
  if (!r.where.empty()) out += ", " + r.where;
  if (r.kind != RowKind::figure && !r.why.empty()) out += ", " + r.why;
  for (const std::string& more : more_of(r, all, figure_info)) out += "\n" + more;
  for (const Assumption& a : r.ifs) out += "\nif " + a.words;
  return out;
}

// What is in the way first; the rows of a set stay behind their either.
std::vector<int> ranks_of(const std::vector<BriefRow>& brief) {
  std::vector<int> ranks;
  for (const BriefRow& r : brief) {
    const bool done =
        stands(r.standing) || r.standing == Standing::waived || r.standing == Standing::not_asked;
    const int own = r.standing == Standing::short_of ? 0 : done ? 2 : 1;
    ranks.push_back(r.in_set() ? ranks.back() : own);
  }
  return ranks;
}

void brief_list(Session& s, const Judged& judged) {
  const auto& brief = judged.results.brief;
  std::vector<std::size_t> order(brief.size());
  std::iota(order.begin(), order.end(), 0U);
  const std::vector<int> rank = ranks_of(brief);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return rank[a] < rank[b]; });
  heading("The brief");
  std::string counts;
  for (const Standing standing :
       {Standing::short_of, Standing::open, Standing::not_checked, Standing::met_if, Standing::met,
        Standing::waived, Standing::not_asked}) {
    const auto n = std::count_if(brief.begin(), brief.end(), [&](const BriefRow& r) {
      return r.standing == standing && !r.in_set();
    });
    if (n > 0)
      counts += (counts.empty() ? "" : ", ") + std::to_string(n) + " " + in_words(standing);
  }
  soft_text(counts.c_str());
  for (const std::size_t i : order) {
    const BriefRow& r = brief[i];
    const int id = static_cast<int>(i);
    const bool old = judged.stale.count(analysis_of(r.what)) > 0;
    if (row(s, id, old ? "◐" : sign_of(r.standing), tone_of(r.standing), row_words(r),
            row_under(r, brief), s.finding.row == id, "brief "))
      show_row(s, id);
    tip(((r.note.empty() ? "" : r.note + "\n") + "Source: " + r.source + "\n" + r.key).c_str());
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
