#pragma once

#include <vector>

namespace stirbench::desk::shell {

struct IconPicture {
  int side = 0;
  std::vector<unsigned char> rgba;
};

// The program's icon: a vat with a well below it and an agitator, drawn by code. side >= 16.
IconPicture draw_window_icon(int side);

}  // namespace stirbench::desk::shell
