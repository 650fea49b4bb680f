#pragma once

#include <glad/gl.h>

#include <string>
#include <vector>

#include "app/desk/views/body/camera.h"
#include "app/desk/views/body/effects.h"

// Owners of OpenGL objects for the renderer.
namespace stirbench::desk::views::body {

class Program {
 public:
  ~Program();
  // Reads assets/shaders/NAME.vert and .frag. Empty = done, else what is wrong.
  std::string load(const std::string& name);
  void use() const { glUseProgram(id_); }
  void set(const char* name, const Matrix& matrix) const;
  void set(const char* name, const std::array<float, 4>& v) const;
  void set(const char* name, const std::array<float, 3>& v) const;
  void set(const char* name, float v) const;

 private:
  GLuint id_ = 0;
};

// Vertices, triangles and edges in one buffer each.
class Buffers {
 public:
  Buffers() = default;
  ~Buffers();
  Buffers(const Buffers&) = delete;
  Buffers& operator=(const Buffers&) = delete;
  // Corners with point and normal (24 bytes), or with a colour too (40 bytes).
  void fill(const void* corners, std::size_t bytes, bool coloured, const std::vector<std::uint32_t>& indices,
            bool often);
  void bind() const { glBindVertexArray(array_); }

 private:
  GLuint array_ = 0;
  GLuint corners_ = 0;
  GLuint indices_ = 0;
};

// Colour texture with depth.
class RenderTarget {
 public:
  RenderTarget() = default;
  ~RenderTarget();
  RenderTarget(const RenderTarget&) = delete;
  RenderTarget& operator=(const RenderTarget&) = delete;
  void resize(int width, int height);
  void bind() const;
  void copy_from(const RenderTarget& other) const;  // colour and depth
  GLuint texture() const { return colour_; }
  GLuint frame() const { return frame_; }
  int width() const { return width_; }
  int height() const { return height_; }

 private:
  void release();
  GLuint frame_ = 0;
  GLuint colour_ = 0;
  GLuint depth_ = 0;
  int width_ = 0;
  int height_ = 0;
};

}  // namespace stirbench::desk::views::body
