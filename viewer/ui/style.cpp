#include "viewer/ui/style.h"

#include <cmath>
#include <filesystem>

#include "viewer/scene/tone.h"

namespace hummock::viewer {
namespace {

constexpr double kTextPixels = 15.0;
constexpr const char* kFont = "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf";

// Latin with accents, Greek, dashes, arrows, mathematical signs, shapes.
constexpr ImWchar kGlyphs[] = {0x20,   0x17F,  0x391,  0x3C9,  0x2010, 0x2027, 0x2030,
                               0x203A, 0x2070, 0x209C, 0x2190, 0x21FF, 0x2200, 0x226F,
                               0x25A0, 0x25FF, 0x2600, 0x2606, 0x2713, 0x2717, 0};

void load_fonts(double scale) {
  ImFontAtlas& fonts = *ImGui::GetIO().Fonts;
  fonts.Clear();
  const auto pixels = static_cast<float>(std::round(kTextPixels * scale));
  std::error_code ignored;
  if (!std::filesystem::exists(kFont, ignored)) {
    ImFontConfig plain;
    plain.SizePixels = pixels;
    fonts.AddFontDefault(&plain);
    return;
  }
  fonts.AddFontFromFileTTF(kFont, pixels, nullptr, kGlyphs);
  fonts.AddFontFromFileTTF(kFont, std::round(pixels * 1.35F), nullptr, kGlyphs);
}

void set_colours(ImGuiStyle& style) {
  const auto set = [&](int which, Colour c, float alpha = 1.0F) {
    c.a = alpha;
    style.Colors[which] = imgui_colour(c);
  };
  const Colour accent = tone::accent();
  const Colour soft = mix(tone::paper_deep(), accent, 0.12F);
  const Colour softer = mix(tone::paper_deep(), accent, 0.28F);
  set(ImGuiCol_Text, tone::ink());
  set(ImGuiCol_TextDisabled, tone::ink_soft());
  set(ImGuiCol_WindowBg, tone::paper());
  set(ImGuiCol_ChildBg, tone::paper(), 0.0F);
  set(ImGuiCol_PopupBg, tone::paper());
  set(ImGuiCol_Border, tone::hair());
  set(ImGuiCol_FrameBg, tone::paper_deep());
  set(ImGuiCol_FrameBgHovered, soft);
  set(ImGuiCol_FrameBgActive, softer);
  set(ImGuiCol_TitleBg, tone::paper_deep());
  set(ImGuiCol_TitleBgActive, tone::paper_deep());
  set(ImGuiCol_ScrollbarBg, tone::paper(), 0.0F);
  set(ImGuiCol_ScrollbarGrab, tone::hair());
  set(ImGuiCol_ScrollbarGrabHovered, tone::unknown());
  set(ImGuiCol_ScrollbarGrabActive, tone::unknown());
  set(ImGuiCol_CheckMark, accent);
  set(ImGuiCol_SliderGrab, accent);
  set(ImGuiCol_SliderGrabActive, accent);
  set(ImGuiCol_Button, tone::paper_deep());
  set(ImGuiCol_ButtonHovered, soft);
  set(ImGuiCol_ButtonActive, softer);
  set(ImGuiCol_Header, soft);
  set(ImGuiCol_HeaderHovered, soft);
  set(ImGuiCol_HeaderActive, softer);
  set(ImGuiCol_Separator, tone::hair());
  set(ImGuiCol_SeparatorHovered, accent);
  set(ImGuiCol_SeparatorActive, accent);
  set(ImGuiCol_TextSelectedBg, accent, 0.30F);
  set(ImGuiCol_NavHighlight, accent);
  set(ImGuiCol_ModalWindowDimBg, tone::ink(), 0.25F);
  set(ImGuiCol_PlotLines, accent);
  set(ImGuiCol_TableHeaderBg, tone::paper_deep());
  set(ImGuiCol_TableBorderStrong, tone::hair());
  set(ImGuiCol_TableBorderLight, tone::hair());
}

}  // namespace

ImVec4 imgui_colour(Colour c) {
  return {c.r, c.g, c.b, c.a};
}
ImU32 imgui_packed(Colour c) {
  return ImGui::ColorConvertFloat4ToU32(imgui_colour(c));
}
ImU32 imgui_packed(Colour c, float alpha) {
  c.a = alpha;
  return imgui_packed(c);
}

ImFont* large_font() {
  const auto& fonts = ImGui::GetIO().Fonts->Fonts;
  return fonts.Size > 1 ? fonts[1] : fonts[0];
}

void set_style(double scale) {
  load_fonts(scale);
  ImGuiStyle style;
  set_colours(style);
  style.WindowRounding = 0.0F;
  style.FrameRounding = 3.0F;
  style.PopupRounding = 4.0F;
  style.GrabRounding = 3.0F;
  style.GrabMinSize = 10.0F;
  style.ScrollbarSize = 10.0F;
  style.ScrollbarRounding = 5.0F;
  style.WindowBorderSize = 0.0F;
  style.PopupBorderSize = 1.0F;
  style.WindowPadding = {12.0F, 10.0F};
  style.FramePadding = {8.0F, 4.0F};
  style.ItemSpacing = {8.0F, 6.0F};
  style.IndentSpacing = 14.0F;
  style.AntiAliasedLinesUseTex = false;
  style.ScaleAllSizes(static_cast<float>(scale));
  ImGui::GetStyle() = style;
}

}  // namespace hummock::viewer
