#include "app/desk/kit/theme/fonts.h"

#include <fontconfig/fontconfig.h>
#include <ft2build.h>
#include FT_FREETYPE_H

#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <memory>
#include <utility>

namespace stirbench::desk::kit {

namespace {

using Config = std::unique_ptr<FcConfig, decltype(&FcConfigDestroy)>;

const FcChar8* as_fc(const std::string& text) { return reinterpret_cast<const FcChar8*>(text.c_str()); }

// These folders and those below them alone, with the system's places for caches.
Config config_of(const std::vector<std::string>& folders) {
  Config config(FcInitLoadConfig(), &FcConfigDestroy);
  for (const std::string& folder : folders) FcConfigAppFontAddDir(config.get(), as_fc(folder));
  return config;
}

// The file of the face with that PostScript name; empty when there is none. An exact search: fontconfig's
// nearest match would put another face in the place of a missing one.
std::string find_face(FcConfig& config, const std::string& name) {
  const std::unique_ptr<FcPattern, decltype(&FcPatternDestroy)> asked(FcPatternCreate(), &FcPatternDestroy);
  FcPatternAddString(asked.get(), FC_POSTSCRIPT_NAME, as_fc(name));
  const std::unique_ptr<FcObjectSet, decltype(&FcObjectSetDestroy)> answer(FcObjectSetBuild(FC_FILE, nullptr),
                                                                           &FcObjectSetDestroy);
  const std::unique_ptr<FcFontSet, decltype(&FcFontSetDestroy)> found(
      FcFontList(&config, asked.get(), answer.get()), &FcFontSetDestroy);
  FcChar8* file = nullptr;
  if (!found || found->nfont == 0 || FcPatternGetString(found->fonts[0], FC_FILE, 0, &file) != FcResultMatch)
    return {};
  return reinterpret_cast<const char*>(file);
}

// From the first of the configurations that has it, face by face.
FontFiles find_all(const std::vector<Config>& configs, std::vector<std::string> searched) {
  const auto find = [&configs](const char* name) {
    std::string file;
    for (const Config& config : configs) {
      if (file.empty()) file = find_face(*config, name);
    }
    return file;
  };
  FontFiles files;
  files.searched = std::move(searched);
  files.regular = find("B612-Regular");
  files.bold = find("B612-Bold");
  files.mono = find("B612Mono-Regular");
  files.fallback = find("DejaVuSans");
  std::string missing;
  for (const auto& [file, name] :
       {std::pair{&files.regular, "B612-Regular"}, std::pair{&files.bold, "B612-Bold"},
        std::pair{&files.mono, "B612Mono-Regular"}}) {
    if (file->empty()) missing += (missing.empty() ? "" : ", ") + std::string(name);
  }
  if (!missing.empty()) {
    files.error = "Fonts not found: " + missing + ". Looked in";
    for (const std::string& folder : files.searched) files.error += " " + folder;
    files.error += ". Install the package fonts-b612, or set STIRBENCH_FONTS to the folder that holds them.";
  }
  return files;
}

// What the desk's texts use of B612: Latin-1, the few further Latin letters it has, Greek for Ω and µ,
// punctuation, arrows, signs.
constexpr ImWchar b612_ranges[] = {
    0x0020, 0x007E, 0x00A0, 0x00FF, 0x0131, 0x0131, 0x0152, 0x0153, 0x0160, 0x0161, 0x0178, 0x0178, 0x017D,
    0x017E, 0x0394, 0x0394, 0x03A9, 0x03A9, 0x03BC, 0x03BC, 0x03C0, 0x03C0, 0x2010, 0x2010, 0x2013, 0x2016,
    0x2018, 0x201E, 0x2020, 0x2026, 0x2030, 0x2030, 0x2039, 0x203A, 0x20AC, 0x20AC, 0x2122, 0x2122, 0x2126,
    0x2126, 0x2153, 0x215E, 0x2190, 0x2195, 0x2206, 0x2206, 0x2211, 0x2212, 0x221A, 0x221A, 0x221E, 0x221E,
    0x2248, 0x2248, 0x2260, 0x2260, 0x2264, 0x2265, 0x25B6, 0x25BF, 0x25CF, 0x25D3, 0x2713, 0x2713, 0};
constexpr ImWchar digit_ranges[] = {0x0020, 0x007E, 0x00A0, 0x00FF, 0x2013, 0x2014, 0x2018,
                                    0x201D, 0x2026, 0x2026, 0x2212, 0x2212, 0};
// Letters of European names that B612 lacks.
constexpr ImWchar fallback_ranges[] = {0x0100, 0x017F, 0x0218, 0x021B, 0x1E80, 0x1E85, 0};

struct Cut {
  Type type;
  const std::string* file;
  const ImWchar* ranges;
  bool fallback;
};

// Type sizes are sizes of the em square, as everywhere in typography; ImGui's font size is ascent to descent.
// This is the ratio of the two; 1 when the file cannot be read.
float line_by_em(const std::string& file) {
  FT_Library library = nullptr;
  if (FT_Init_FreeType(&library) != 0) return 1.0F;
  float ratio = 1.0F;
  FT_Face face = nullptr;
  if (FT_New_Face(library, file.c_str(), 0, &face) == 0) {
    if (face->units_per_EM > 0)
      ratio = static_cast<float>(face->ascender - face->descender) / static_cast<float>(face->units_per_EM);
    FT_Done_Face(face);
  }
  FT_Done_FreeType(library);
  return ratio > 0.5F && ratio < 3.0F ? ratio : 1.0F;
}

// A thin space and a narrow no-break space: B612 has none, so each font is given one. A quarter of the em,
// more than the usual fifth, because B612 sets its digits tightly.
void add_thin_spaces(ImFont& font, const ImFontConfig& config, float em_px) {
  for (const ImWchar code : {ImWchar{0x2009}, ImWchar{0x202F}}) {
    font.AddGlyph(&config, code, 0.0F, 0.0F, 0.0F, 0.0F, 0.0F, 0.0F, 0.0F, 0.0F, std::round(em_px * 0.25F));
  }
  font.BuildLookupTable();
}

}  // namespace

FontFiles find_fonts() {
  std::vector<Config> configs;
  std::vector<std::string> searched;
  if (const char* chosen = std::getenv("STIRBENCH_FONTS"); chosen != nullptr && *chosen != '\0') {
    searched.emplace_back(chosen);
    configs.push_back(config_of(searched));
  }
  configs.emplace_back(FcInitLoadConfigAndFonts(), &FcConfigDestroy);
  FcStrList* folders = FcConfigGetFontDirs(configs.back().get());
  while (const FcChar8* folder = FcStrListNext(folders))
    searched.emplace_back(reinterpret_cast<const char*>(folder));
  FcStrListDone(folders);
  return find_all(configs, std::move(searched));
}

FontFiles find_fonts(const std::vector<std::string>& folders) {
  std::vector<Config> configs;
  configs.push_back(config_of(folders));
  return find_all(configs, folders);
}

std::string FontSet::build(Theme& theme, ImFontAtlas& atlas, const FontFiles& files, float dpi_scale,
                           float text_scale) {
  if (!files.error.empty()) return files.error;
  atlas.Clear();
  theme.dpi_scale_ = dpi_scale;
  theme.text_scale_ = text_scale;
  // Large digits and titles need few letters of other languages; the small sizes carry names and need all.
  const std::vector<Cut> cuts = {
      {Type::body, &files.regular, b612_ranges, true},
      {Type::caption, &files.regular, b612_ranges, true},
      {Type::caption_bold, &files.bold, b612_ranges, true},
      {Type::body_bold, &files.bold, b612_ranges, true},
      {Type::step, &files.regular, b612_ranges, true},
      {Type::title, &files.regular, b612_ranges, true},
      {Type::display, &files.regular, b612_ranges, true},
      {Type::display_large, &files.regular, digit_ranges, false},
      {Type::mono, &files.mono, b612_ranges, true},
  };
  const float ratio = line_by_em(files.regular);
  const float fallback_ratio = files.fallback.empty() ? 1.0F : line_by_em(files.fallback);
  std::vector<ImFontConfig> configs(cuts.size());
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    const float em_px = theme.text_px(cuts[i].type);
    const float size_px = em_px * ratio;
    ImFontConfig& config = configs[i];
    config.OversampleH = 2;
    config.OversampleV = 1;
    config.PixelSnapH = true;
    ImFont* font = atlas.AddFontFromFileTTF(cuts[i].file->c_str(), size_px, &config, cuts[i].ranges);
    if (font == nullptr)
      return "The font " + *cuts[i].file + " cannot be read. Install the package fonts-b612 again.";
    theme.fonts_[static_cast<std::size_t>(cuts[i].type)] = font;
    if (cuts[i].fallback && !files.fallback.empty()) {
      ImFontConfig merge = config;
      merge.MergeMode = true;
      atlas.AddFontFromFileTTF(files.fallback.c_str(), em_px * fallback_ratio, &merge, fallback_ranges);
    }
  }
  atlas.TexDesiredWidth = text_scale * dpi_scale > 1.5F ? 4096 : 2048;
  atlas.Flags |= ImFontAtlasFlags_NoPowerOfTwoHeight;
  if (!atlas.Build()) return "The font atlas could not be built.";
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    add_thin_spaces(*theme.font(cuts[i].type), configs[i], theme.text_px(cuts[i].type));
  }
  return {};
}

}  // namespace stirbench::desk::kit
