#include "engine/report/setters/html_page.h"

#include <fmt/format.h>
#include <nettle/base64.h>

#include <fstream>
#include <iterator>

#include "engine/base/assets.h"
#include "engine/base/input_error.h"
#include "engine/base/printable.h"
#include "engine/report/checksums.h"

namespace hummock::report {
namespace {

std::string base64(const std::string& bytes) {
  std::string text(BASE64_ENCODE_RAW_LENGTH(bytes.size()), '\0');
  base64_encode_raw(text.data(), bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  return text;
}

std::string asset(const std::string& name) {
  const std::filesystem::path path = assets_folder() / "report" / name;
  std::ifstream in(path, std::ios::binary);
  if (!in) throw InputError({path.string(), 0, ""}, "no such file", "the shipped assets");
  return {std::istreambuf_iterator<char>(in), {}};
}

// A script cannot hold its own end.
std::string as_script(std::string text) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; };
  const std::string end = "</script";
  for (std::size_t at = text.find("</"); at != std::string::npos; at = text.find("</", at + 2)) {
    bool ends = at + end.size() <= text.size();
    for (std::size_t k = 0; ends && k < end.size(); ++k) ends = lower(text[at + k]) == end[k];
    if (ends) text.insert(at + 1, 1, '\\');
  }
  return text;
}

std::string as_json_block(std::string text) {
  for (std::size_t at = text.find('<'); at != std::string::npos; at = text.find('<', at)) {
    text.replace(at, 1, "\\u003c");
  }
  return text;
}

const char* css_class(Mark mark) {
  switch (mark) {
    case Mark::none:
      return "none";
    case Mark::met:
      return "met";
    case Mark::short_of:
      return "short";
    case Mark::not_checked:
    case Mark::open:
      return "open";
    case Mark::way_out:
      return "out";
    case Mark::met_if:
    case Mark::waived:
    case Mark::look:
      return "look";
  }
  return "none";
}

std::string badge(Mark mark, const std::string& words) {
  if (mark == Mark::none) return escaped(words);
  return fmt::format("<span class=\"badge {}\"><span class=\"sign\">{}</span> {}</span>",
                     css_class(mark), sign(mark), escaped(words));
}

std::string image_source(const Drawn& drawn) {
  if (!drawn.page_png.empty()) return "data:image/png;base64," + base64(drawn.page_png);
  return "data:image/svg+xml;base64," + base64(drawn.svg);
}

std::string picture(const draw::Figure& figure, const Drawings& drawings, const char* css) {
  return fmt::format(
      "<figure class=\"{}\" id=\"fig-{}\">\n<img alt=\"{}\" width=\"{:.0f}\" height=\"{:.0f}\" "
      "style=\"--mm:{:.1f}mm\" src=\"{}\">\n<figcaption>{}</figcaption>\n</figure>\n",
      css, escaped(figure.name), escaped(figure.caption), figure.size.x * 4.0, figure.size.y * 4.0,
      figure.size.x, image_source(drawings.at(&figure)), escaped(figure.caption));
}

std::string card(const Card& c) {
  std::string out = fmt::format("<li class=\"card {}\"><span class=\"label\">{}</span>",
                                css_class(c.mark), badge(c.mark, to_string(c.mark)));
  out += fmt::format("<p>{}</p>", escaped(c.text));
  if (!c.to_do.empty()) {
    out += fmt::format("<p class=\"todo\">What to do: {}</p>", escaped(c.to_do));
  }
  if (!c.place.empty()) out += fmt::format("<p class=\"at\">{}</p>", escaped(c.place));
  return out + "</li>\n";
}

std::string cards(const std::vector<Card>& list) {
  std::string out = "<ul class=\"cards\">\n";
  for (const Card& c : list) out += card(c);
  return out + "</ul>\n";
}

std::string bullets(const std::vector<std::string>& lines) {
  std::string out = "<ul>\n";
  for (const std::string& line : lines) {
    out += fmt::format("<li>{}</li>\n", escaped(line));
  }
  return out + "</ul>\n";
}

std::string facts(const std::vector<std::pair<std::string, std::string>>& list) {
  std::string out = "<dl class=\"facts\">\n";
  for (const auto& [term, what] : list) {
    out += fmt::format("<dt>{}</dt><dd dir=\"auto\">{}</dd>\n", escaped(term), escaped(what));
  }
  return out + "</dl>\n";
}

std::string table_cell(const Cell& c, const Column& column) {
  return fmt::format("<td{} dir=\"auto\" data-label=\"{}\">{}</td>",
                     column.right ? " class=\"num\"" : "", escaped(column.title),
                     c.mark == Mark::none ? escaped(c.text) : badge(c.mark, c.text));
}

std::string column_widths(const Table& t) {
  double sum = 0.0;
  for (const Column& c : t.columns) sum += c.share;
  std::string out = "<colgroup>";
  for (const Column& c : t.columns) {
    if (c.share > 0.0) out += fmt::format("<col style=\"width:{:.1f}%\">", 100.0 * c.share / sum);
  }
  return out + "</colgroup>\n";
}

std::string table(const Table& t) {
  constexpr std::size_t kShort = 9;  // rows that print on one sheet rather than over two
  std::string out = t.rows.size() > kShort ? "<div class=\"table\">\n<table>\n"
                                           : "<div class=\"table whole\">\n<table>\n";
  if (!t.title.empty()) {
    out += fmt::format("<caption dir=\"auto\">{}</caption>\n", escaped(t.title));
  }
  out += column_widths(t) + "<thead><tr>";
  for (const Column& c : t.columns) {
    if (c.share <= 0.0) continue;
    out += fmt::format("<th scope=\"col\"{}>{}</th>", c.right ? " class=\"num\"" : "",
                       escaped(c.title));
  }
  out += "</tr></thead>\n<tbody>\n";
  for (std::size_t r = 0; r < t.rows.size(); r += t.shown_every) {
    out += "<tr>";
    for (std::size_t c = 0; c < t.columns.size(); ++c) {
      if (t.columns[c].share > 0.0) out += table_cell(t.rows[r][c], t.columns[c]);
    }
    out += "</tr>\n";
  }
  if (t.rows.empty())
    out += fmt::format("<tr><td colspan=\"{}\">none</td></tr>\n", t.columns.size());
  out += "</tbody>\n</table>\n</div>\n";
  if (!t.note.empty()) out += fmt::format("<p class=\"small\">{}</p>\n", escaped(t.note));
  return out;
}

std::string turn_block(const TurnModel& block, const Drawings& drawings, bool can_turn) {
  std::string out;
  if (can_turn) {
    out +=
        "<div id=\"turn\" class=\"turn\" hidden>\n<div id=\"turn-view\" class=\"turn-view\" "
        "tabindex=\"0\" role=\"application\" aria-label=\"The model: drag to turn, wheel or pinch "
        "to come nearer, arrow keys to move\"></div>\n<div class=\"turn-tools\">\n<div "
        "id=\"turn-layers\" class=\"turn-layers\"></div>\n<div id=\"turn-time\" "
        "class=\"turn-time\" hidden><label for=\"turn-clock\">Time of day</label><input "
        "type=\"range\" id=\"turn-clock\" min=\"0\" max=\"0\" value=\"0\"><output "
        "id=\"turn-label\" for=\"turn-clock\"></output></div>\n<p class=\"small\">Drag to turn, "
        "right button or two fingers to move, wheel or pinch to come nearer. Mesh casts no shadow "
        "here, and the ground may be thinned; the plans below are computed on the model in "
        "full.</p>\n</div>\n</div>\n";
  }
  out += "<div id=\"still\">\n" + picture(block.still, drawings, "wide") + "</div>\n";
  out +=
      "<p class=\"small\" id=\"turn-off\">This browser shows a still picture: turning the model "
      "needs scripts and WebGL" +
      std::string(can_turn ? "" : ", and the page was made without the drawing library") +
      ". Everything else in the report is complete without it.</p>\n";
  return out;
}

struct HtmlSetter {
  const Drawings& drawings;
  bool can_turn = false;
  std::string operator()(const Text& t) const {
    const char* css = t.tone == Tone::lead ? "lead" : (t.tone == Tone::small ? "small" : "body");
    return fmt::format("<p class=\"{}\"{}>{}</p>\n", css, t.users_own ? " dir=\"auto\"" : "",
                       escaped(t.text));
  }
  std::string operator()(const Heading& h) const {
    return fmt::format("<h3 dir=\"auto\">{}</h3>\n", escaped(h.text));
  }
  std::string operator()(const Bullets& b) const { return bullets(b.lines); }
  std::string operator()(const Facts& f) const { return facts(f.list); }
  std::string operator()(const Table& t) const { return table(t); }
  std::string operator()(const Cards& c) const { return cards(c.list); }
  std::string operator()(const Picture& p) const { return picture(p.figure, drawings, "wide"); }
  std::string operator()(const TurnModel& t) const { return turn_block(t, drawings, can_turn); }
};

std::string front(const Front& f, const Drawings& drawings) {
  std::string out = "<header class=\"front\">\n";
  out += fmt::format("<p class=\"kind\">{}</p>\n<h1 dir=\"auto\">{}</h1>\n", escaped(f.kind),
                     escaped(f.title));
  out += facts(f.facts);
  const std::string lead =
      f.mark == Mark::none ? "" : fmt::format("<span class=\"sign\">{}</span> ", sign(f.mark));
  out += fmt::format("<p class=\"verdict {}\">{}{}</p>\n", css_class(f.mark), lead,
                     escaped(f.verdict));
  if (!f.tally.empty()) {
    out += "<p class=\"tally\">";
    for (const auto& [mark, n] : f.tally)
      out += badge(mark, fmt::format("{} {}", n, to_string(mark))) + " ";
    out += "</p>\n";
  }
  if (f.picture) out += picture(*f.picture, drawings, "wide");
  if (!f.cards.empty()) out += "<h2>Findings</h2>\n" + cards(f.cards);
  if (!f.more.empty()) out += fmt::format("<p><a href=\"#findings\">{}</a></p>\n", escaped(f.more));
  out += "<section class=\"caution\">\n<h2>Cautions</h2>\n" + bullets(f.cautions);
  if (!f.limits.empty()) out += "<h3>Limits of the models</h3>\n" + bullets(f.limits);
  return out + "</section>\n</header>\n";
}

std::string contents(const Document& document) {
  std::string out = "<nav aria-label=\"Contents\">\n<ol>\n";
  for (const Chapter& c : document.chapters) {
    out += fmt::format("<li><a href=\"#{}\">{}</a></li>\n", escaped(c.id), escaped(c.title));
  }
  return out + "</ol>\n</nav>\n";
}

std::string chapter(const Chapter& c, const HtmlSetter& setter) {
  std::string out = fmt::format("<section id=\"{}\">\n<h2 dir=\"auto\">{}</h2>\n", escaped(c.id),
                                escaped(c.title));
  if (!c.question.empty())
    out += fmt::format("<p class=\"question\">{}</p>\n", escaped(c.question));
  for (const Block& block : c.blocks) out += std::visit(setter, block);
  return out + "</section>\n";
}

struct Scripts {
  std::string hashes;  // for the policy
  std::string blocks;
};

Scripts scripts_of(const TurnData& turn) {
  Scripts out;
  out.blocks += "<script type=\"application/json\" id=\"turn-data\">" + as_json_block(turn.json) +
                "</script>\n<script type=\"text/plain\" id=\"turn-glb\">" + base64(turn.glb) +
                "</script>\n";
  for (const std::string& script : turn.scripts) {
    const std::string text = "\n" + as_script(script) + "\n";
    out.hashes += " 'sha256-" + sha256_base64(text) + "'";
    out.blocks += "<script>" + text + "</script>\n";
  }
  return out;
}

}  // namespace

std::string escaped(const std::string& text) {
  std::string out;
  out.reserve(text.size() + 16);
  for (const char c : drawable(text)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string html_page(const Document& document, const Drawings& drawings,
                      const std::optional<TurnData>& turn) {
  const Scripts scripts = turn ? scripts_of(*turn) : Scripts{};
  const HtmlSetter setter{drawings, turn.has_value()};
  std::string page = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n";
  page +=
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src data:; "
      "style-src 'unsafe-inline'; script-src" +
      (scripts.hashes.empty() ? " 'none'" : scripts.hashes) +
      "; base-uri 'none'; form-action 'none'\">\n";
  page += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
  page +=
      fmt::format("<title>{}: {}</title>\n<style>\n{}</style>\n</head>\n<body>\n",
                  escaped(document.front.title), escaped(document.front.kind), asset("report.css"));
  page += front(document.front, drawings) + contents(document) + "<main>\n";
  for (const Chapter& c : document.chapters) page += chapter(c, setter);
  page += "</main>\n<footer>\n" + fmt::format("<p>{}</p>\n", escaped(document.foot));
  if (turn) {
    page += "<details>\n<summary>Licence of the drawing library in this page</summary>\n<pre>" +
            escaped(turn->licence) + "</pre>\n</details>\n";
  }
  return page + "</footer>\n" + scripts.blocks + "</body>\n</html>\n";
}

}  // namespace hummock::report
