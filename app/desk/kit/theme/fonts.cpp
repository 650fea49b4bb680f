#include "app/desk/kit/theme/fonts.h"

#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace stirbench::desk::kit {

namespace {

namespace fs = std::filesystem;

std::vector<std::string> system_folders() {
  std::vector<std::string> folders;
  if (const char* chosen = std::getenv("STIRBENCH_FONTS"); chosen != nullptr && *chosen != '\0') folders.emplace_back(chosen);
  const auto below = [&folders](const std::string& root) {
    for (const char* part : {"/opentype/b612", "/truetype/b612", "/opentype", "/truetype", "/OTF", "/TTF", "/b612", ""}) {
      folders.push_back(root + part);
    }
  };
  below("/usr/share/fonts");
  below("/usr/local/share/fonts");
  if (const char* data = std::getenv("XDG_DATA_HOME"); data != nullptr && *data != '\0') below(std::string(data) + "/fonts");
  if (const char* home = std::getenv("HOME"); home != nullptr && *home != '\0') {
    below(std::string(home) + "/.local/share/fonts");
    below(std::string(home) + "/.fonts");
  }
  return folders;
}

std::string find_in(const std::vector<std::string>& folders, const std::string& stem) {
  for (const std::string& folder : folders) {
    for (const char* ending : {".otf", ".ttf"}) {
      std::error_code failed;
      const fs::path file = fs::path(folder) / (stem + ending);
      if (fs::is_regular_file(file, failed)) return file.string();
    }
  }
  return {};
}

// What the desk's texts use of B612: Latin-1, the few further Latin letters it has, Greek for Ω and µ, punctuation, arrows, signs.
constexpr ImWchar b612_ranges[] = {0x0020, 0x007E, 0x00A0, 0x00FF, 0x0131, 0x0131, 0x0152, 0x0153, 0x0160, 0x0161, 0x0178, 0x0178,
                                   0x017D, 0x017E, 0x0394, 0x0394, 0x03A9, 0x03A9, 0x03BC, 0x03BC, 0x03C0, 0x03C0, 0x2010, 0x2010,
                                   0x2013, 0x2016, 0x2018, 0x201E, 0x2020, 0x2026, 0x2030, 0x2030, 0x2039, 0x203A, 0x20AC, 0x20AC,
                                   0x2122, 0x2122, 0x2126, 0x2126, 0x2153, 0x215E, 0x2190, 0x2195, 0x2206, 0x2206, 0x2211, 0x2212,
                                   0x221A, 0x221A, 0x221E, 0x221E, 0x2248, 0x2248, 0x2260, 0x2260, 0x2264, 0x2265, 0x25B6, 0x25BF,
                                   0x25CF, 0x25D3, 0x2713, 0x2713, 0};
constexpr ImWchar digit_ranges[] = {0x0020, 0x007E, 0x00A0, 0x00FF, 0x2013, 0x2014, 0x2018, 0x201D, 0x2026, 0x2026, 0x2212, 0x2212, 0};
// Letters of European names that B612 lacks.
constexpr ImWchar fallback_ranges[] = {0x0100, 0x017F, 0x0218, 0x021B, 0x1E80, 0x1E85, 0};

struct Cut {
  Type type;
  const std::string* file;
  const ImWchar* ranges;
  bool fallback;
};

// Type sizes are sizes of the em square, as everywhere in typography; ImGui's font size is ascent to descent. The ratio of the two
// stands in the font file (OpenType tables head and hhea). 1 when it cannot be read.
float line_by_em(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  const std::string bytes((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
  const auto u16 = [&bytes](std::size_t at) {
    if (at + 2 > bytes.size()) return 0U;
    return static_cast<unsigned int>(static_cast<unsigned char>(bytes[at])) * 256U + static_cast<unsigned char>(bytes[at + 1]);
  };
  const auto i16 = [&u16](std::size_t at) { return static_cast<int>(static_cast<std::int16_t>(u16(at))); };
  const auto table = [&](const char* tag) -> std::size_t {
    for (std::size_t i = 0; i < u16(4); ++i) {
      const std::size_t entry = 12 + 16 * i;
      if (entry + 16 <= bytes.size() && bytes.compare(entry, 4, tag) == 0) return (static_cast<std::size_t>(u16(entry + 8)) << 16U) + u16(entry + 10);
    }
    return 0;
  };
  const std::size_t head = table("head");
  const std::size_t hhea = table("hhea");
  if (head == 0 || hhea == 0 || u16(head + 18) == 0) return 1.0F;
  const float ratio = static_cast<float>(i16(hhea + 4) - i16(hhea + 6)) / static_cast<float>(u16(head + 18));
  return ratio > 0.5F && ratio < 3.0F ? ratio : 1.0F;
}

// A thin space and a narrow no-break space: B612 has none, so each font is given one. A quarter of the em, more than the usual
// fifth, because B612 sets its digits tightly.
void add_thin_spaces(ImFont& font, const ImFontConfig& config, float em_px) {
  for (const ImWchar code : {ImWchar{0x2009}, ImWchar{0x202F}}) {
    font.AddGlyph(&config, code, 0.0F, 0.0F, 0.0F, 0.0F, 0.0F, 0.0F, 0.0F, 0.0F, std::round(em_px * 0.25F));
  }
  font.BuildLookupTable();
}

}  // namespace

FontFiles find_fonts() { return find_fonts(system_folders()); }

FontFiles find_fonts(const std::vector<std::string>& folders) {
  FontFiles files;
  files.searched = folders;
  files.regular = find_in(folders, "B612-Regular");
  files.bold = find_in(folders, "B612-Bold");
  files.mono = find_in(folders, "B612Mono-Regular");
  std::vector<std::string> wider = folders;
  wider.emplace_back("/usr/share/fonts/truetype/dejavu");
  files.fallback = find_in(wider, "DejaVuSans");
  std::string missing;
  for (const auto& [file, name] : {std::pair{&files.regular, "B612-Regular"}, std::pair{&files.bold, "B612-Bold"},
                                   std::pair{&files.mono, "B612Mono-Regular"}}) {
    if (file->empty()) missing += (missing.empty() ? "" : ", ") + std::string(name);
  }
  if (!missing.empty()) {
    files.error = "Fonts not found: " + missing + " (.otf or .ttf). Looked in";
    for (const std::string& folder : folders) files.error += " " + folder;
    files.error += ". Install the package fonts-b612, or set STIRBENCH_FONTS to the folder that holds them.";
  }
  return files;
}

std::string FontSet::build(Theme& theme, ImFontAtlas& atlas, const FontFiles& files, float dpi_scale, float text_scale) {
  if (!files.error.empty()) return files.error;
  atlas.Clear();
  theme.dpi_scale_ = dpi_scale;
  theme.text_scale_ = text_scale;
  // Large digits and titles need few letters of other languages; the small sizes carry names and need all.
  const std::vector<Cut> cuts = {
      {Type::body, &files.regular, b612_ranges, true},     {Type::caption, &files.regular, b612_ranges, true},
      {Type::caption_bold, &files.bold, b612_ranges, true}, {Type::body_bold, &files.bold, b612_ranges, true},
      {Type::step, &files.regular, b612_ranges, true},     {Type::title, &files.regular, b612_ranges, true},
      {Type::display, &files.regular, b612_ranges, true},  {Type::display_large, &files.regular, digit_ranges, false},
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
    if (font == nullptr) return "The font " + *cuts[i].file + " cannot be read. Install the package fonts-b612 again.";
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
