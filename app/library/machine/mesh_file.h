#pragma once

#include <string>
#include <vector>

#include "app/library/library.h"

namespace stirbench::library {

// A surface as text: "v X Y Z" gives a corner [m], "f A B C ..." a face by the numbers of its corners from 1
// (A/T/N: the first counts); vn, vt, o, g, s, usemtl, mtllib and comments are ignored. Faces with more
// corners are split into a fan. At most 200 000 corners and as many triangles; the surface must be closed:
// each edge is used once in each direction. Problems name file and line.
void parse_mesh(const std::string& text, const std::string& file, BodyShape& out,
                std::vector<Problem>& problems);

}  // namespace stirbench::library
