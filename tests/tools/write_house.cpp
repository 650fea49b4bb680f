// Draws the house as an SVG: a box for each room of tests/habits/layers.cpp with its files and lines, on the
// level that the arrow gives it; an arrow for each pair of rooms of which one includes the other, and a table
// that counts them all. An include against the arrow is red.
//   write_house FILE
#include <algorithm>
#include <cstdio>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "tests/habits/layers.h"
#include "tests/support/files.h"

namespace {

using namespace stirbench;

struct Room {
  std::string layer;
  int files = 0;
  int lines = 0;
  int level = 0;  // 0: stands on no other room
  int x = 0;      // of the box's left upper corner [px]
  int y = 0;
};

using Rooms = std::vector<Room>;

constexpr int box_width = 132;
constexpr int box_height = 44;
constexpr int column_px = 152;
constexpr int level_px = 82;
constexpr int house_width = 5 * column_px + 40;
constexpr int top_px = 96;
constexpr int cell_px = 26;
constexpr int names_px = 190;  // of the table's row names
constexpr int table_top_px = top_px + 150;

Room& find(Rooms& rooms, const std::string& layer) {
  return *std::find_if(rooms.begin(), rooms.end(), [&](const Room& room) { return room.layer == layer; });
}

// "sim_core/plant" -> "plant"
std::string short_name(const std::string& layer) {
  if (layer == "app/main.cpp") return "main";
  if (layer.starts_with("app/library/")) return "library/" + layer.substr(12);
  return layer.substr(layer.rfind('/') + 1);
}

const char* fill_of(const std::string& layer) {
  if (layer.starts_with("sim_core/")) return "#dcebf7";
  if (layer.starts_with("app/library")) return "#e3f1dc";
  if (layer.starts_with("app/desk/")) return "#f8ead2";
  return "#ece4f3";
}

// Above all that a room stands on, just below the lowest of those that stand on it.
void set_levels(Rooms& rooms) {
  for (Room& room : rooms)
    for (const std::string& left : habits::left_of(room.layer))
      room.level = std::max(room.level, find(rooms, left).level + 1);
  std::map<std::string, int> lowest_user;
  for (auto room = rooms.rbegin(); room != rooms.rend(); ++room) {
    if (const auto user = lowest_user.find(room->layer); user != lowest_user.end())
      room->level = user->second - 1;
    for (const std::string& left : habits::left_of(room->layer)) {
      const auto [at, is_new] = lowest_user.try_emplace(left, room->level);
      if (!is_new) at->second = std::min(at->second, room->level);
    }
  }
}

void set_places(Rooms& rooms) {
  std::map<int, std::vector<Room*>> levels;
  for (Room& room : rooms) levels[room.level].push_back(&room);
  const int top_level = levels.rbegin()->first;
  for (auto& [level, row] : levels) {
    const int row_px = static_cast<int>(row.size()) * column_px;
    int x = (house_width - row_px + column_px - box_width) / 2;
    for (Room* room : row) {
      room->x = x;
      room->y = top_px + (top_level - level) * level_px;
      x += column_px;
    }
  }
}

Rooms measured(const std::vector<habits::SourceFile>& files) {
  Rooms rooms;
  for (const std::string& layer : habits::layers()) rooms.push_back({.layer = layer});
  for (const habits::SourceFile& file : files) {
    const std::string layer = habits::layer_of(file.path);
    if (layer.empty() || layer == "tests") continue;
    Room& room = find(rooms, layer);
    ++room.files;
    room.lines += static_cast<int>(std::count(file.text.begin(), file.text.end(), '\n'));
  }
  set_levels(rooms);
  set_places(rooms);
  return rooms;
}

void put_text(std::ostream& out, int x, int y, const std::string& words, const std::string& style) {
  out << "<text x=\"" << x << "\" y=\"" << y << "\" " << style << ">" << words << "</text>\n";
}

struct Point {
  int x = 0;
  int y = 0;
};

// A line from box to box, bent the more the farther they stand apart, so that it passes beside those between.
// Returns the point at a quarter of its way.
Point put_line(std::ostream& out, const Room& from, const Room& to, const std::string& style) {
  const bool down = from.level > to.level;
  const Point begin{from.x + box_width / 2, down ? from.y + box_height : from.y};
  const Point end{to.x + box_width / 2, down ? to.y : to.y + box_height};
  const int levels = std::max(from.level - to.level, to.level - from.level);
  const int outward = begin.x + end.x - house_width;
  const int side = outward != 0 ? (outward > 0 ? 1 : -1) : ((from.level + to.level) % 2 == 0 ? 1 : -1);
  // No farther than the drawing reaches: a curve comes three quarters as far as its two middle points.
  const int room_px = side < 0 ? std::min(begin.x, end.x) : house_width - std::max(begin.x, end.x);
  const int bend = levels > 1 ? side * std::min({60 + 26 * levels, 260, room_px * 4 / 3}) : 0;
  const int third = (end.y - begin.y) / 3;
  out << "<path d=\"M" << begin.x << ' ' << begin.y << " C" << begin.x + bend << ' ' << begin.y + third << ' '
      << end.x + bend << ' ' << end.y - third << ' ' << end.x << ' ' << end.y << "\" fill=\"none\" " << style
      << "/>\n";
  // Bezier's weights at 1/4: 27, 27, 9 and 1 of 64.
  return {(54 * begin.x + 10 * end.x + 36 * bend) / 64, begin.y + (end.y - begin.y) / 4};
}

void put_head(std::ostream& out, const Room& to, bool down, const char* colour) {
  const int x = to.x + box_width / 2;
  const int y = down ? to.y : to.y + box_height;
  const int back = down ? -8 : 8;
  out << "<path d=\"M" << x << ' ' << y << " L" << x - 4 << ' ' << y + back << " L" << x + 4 << ' '
      << y + back << " Z\" fill=\"" << colour << "\"/>\n";
}

// The rooms that a row names are its neighbours; what lies behind them is drawn faintly.
void put_arrows(std::ostream& out, Rooms& rooms, const std::vector<habits::LayerIncludes>& includes) {
  std::ostringstream near;
  for (const habits::LayerIncludes& one : includes) {
    const Room& from = find(rooms, one.from);
    const Room& to = find(rooms, one.to);
    const bool against = !habits::may_include(one.from, one.to);
    const std::vector<std::string> left = habits::left_of(one.from);
    if (!against && std::find(left.begin(), left.end(), one.to) == left.end()) {
      put_line(out, from, to, "stroke=\"#9aa7b4\" stroke-width=\"1\" stroke-opacity=\"0.4\"");
      continue;
    }
    const char* colour = against ? "#d02020" : "#3c5670";
    const auto [x, y] =
        put_line(near, from, to, "stroke=\"" + std::string(colour) + "\" stroke-width=\"1.6\"");
    put_head(near, to, from.level > to.level, colour);
    near << "<rect x=\"" << x - 11 << "\" y=\"" << y - 7
         << "\" width=\"22\" height=\"13\" fill=\"#ffffff\"/>\n";
    put_text(near, x, y + 4, std::to_string(one.count),
             "font-size=\"11\" text-anchor=\"middle\" fill=\"" + std::string(colour) + "\"");
  }
  out << near.str();
}

void put_boxes(std::ostream& out, const Rooms& rooms) {
  for (const Room& room : rooms) {
    out << "<rect x=\"" << room.x << "\" y=\"" << room.y << "\" width=\"" << box_width << "\" height=\""
        << box_height << "\" rx=\"5\" fill=\"" << fill_of(room.layer) << "\" stroke=\"#3c5670\"/>\n";
    const int middle = room.x + box_width / 2;
    put_text(out, middle, room.y + 19, short_name(room.layer),
             "font-size=\"14\" font-weight=\"bold\" text-anchor=\"middle\"");
    const std::string files = std::to_string(room.files) + (room.files == 1 ? " file, " : " files, ");
    put_text(out, middle, room.y + 36, files + std::to_string(room.lines) + " lines",
             "font-size=\"11\" text-anchor=\"middle\" fill=\"#444444\"");
  }
}

// Who includes whom, how often: a row for each room that includes, a column for each that is included.
void put_table(std::ostream& out, const Rooms& rooms, const std::vector<habits::LayerIncludes>& includes) {
  const int left = house_width + names_px;
  std::map<std::string, int> place;
  for (const Room& room : rooms) place.emplace(room.layer, static_cast<int>(place.size()));
  const int size = static_cast<int>(rooms.size()) * cell_px;
  put_text(out, left, table_top_px - 128, "Include lines: of the row's room, naming the column's",
           "font-size=\"14\" font-weight=\"bold\"");
  for (const auto& [layer, at] : place) {
    const int y = table_top_px + at * cell_px;
    const int x = left + at * cell_px + 17;
    put_text(out, left - 8, y + 17, short_name(layer), "font-size=\"12\" text-anchor=\"end\"");
    put_text(out, x, table_top_px - 8, short_name(layer),
             "font-size=\"12\" transform=\"rotate(-90 " + std::to_string(x) + ' ' +
                 std::to_string(table_top_px - 8) + ")\"");
    out << "<rect x=\"" << left << "\" y=\"" << y << "\" width=\"" << size << "\" height=\"" << cell_px
        << "\" fill=\"" << (at % 2 == 0 ? "#f6f7f9" : "#ffffff") << "\"/>\n";
    out << "<rect x=\"" << left + at * cell_px << "\" y=\"" << y << "\" width=\"" << cell_px << "\" height=\""
        << cell_px << "\" fill=\"#c9d2db\"/>\n";
  }
  for (const habits::LayerIncludes& one : includes) {
    const bool against = !habits::may_include(one.from, one.to);
    const int x = left + place.at(one.to) * cell_px;
    const int y = table_top_px + place.at(one.from) * cell_px;
    out << "<rect x=\"" << x + 1 << "\" y=\"" << y + 1 << "\" width=\"" << cell_px - 2 << "\" height=\""
        << cell_px - 2 << "\" fill=\"" << (against ? "#d02020" : fill_of(one.to)) << "\"/>\n";
    put_text(out, x + cell_px / 2, y + 17, std::to_string(one.count),
             "font-size=\"11\" text-anchor=\"middle\"");
  }
}

std::string drawing(Rooms& rooms, const std::vector<habits::LayerIncludes>& includes) {
  int bottom = 0;
  int against = 0;
  for (const Room& room : rooms) bottom = std::max(bottom, room.y + box_height);
  for (const habits::LayerIncludes& one : includes)
    if (!habits::may_include(one.from, one.to)) against += one.count;
  const int width = house_width + names_px + static_cast<int>(rooms.size()) * cell_px + 30;
  const int height = std::max(bottom, table_top_px + static_cast<int>(rooms.size()) * cell_px) + 30;
  std::ostringstream out;
  out << "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" << width << "\" height=\"" << height
      << "\" viewBox=\"0 0 " << width << ' ' << height << "\" font-family=\"sans-serif\">\n"
      << "<rect width=\"" << width << "\" height=\"" << height << "\" fill=\"#ffffff\"/>\n";
  put_text(out, 24, 34, "The house: rooms, and what they include", "font-size=\"20\" font-weight=\"bold\"");
  put_text(
      out, 24, 56,
      "Dark: include lines to a room that the row of the table in tests/habits/layers.cpp names, counted.",
      "font-size=\"12\"");
  put_text(out, 24, 73,
           "Grey: to a room behind those. Against the arrow, in red: " + std::to_string(against) + ".",
           "font-size=\"12\"");
  put_arrows(out, rooms, includes);
  put_boxes(out, rooms);
  put_table(out, rooms, includes);
  out << "</svg>\n";
  return out.str();
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::fprintf(stderr, "usage: write_house FILE   (an SVG, such as assets/pictures/house.svg)\n");
    return 2;
  }
  try {
    const std::vector<habits::SourceFile> files = habits::read_sources();
    Rooms rooms = measured(files);
    test_support::write_file(argv[1], drawing(rooms, habits::includes_between_layers(files)));
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 2;
  }
  return 0;
}
