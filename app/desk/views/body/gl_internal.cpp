#include "app/desk/views/body/gl_internal.h"

#include <stdexcept>

#include "app/library/reading/paths.h"

namespace stirbench::desk::views::body {

namespace {

std::string compile(GLuint shader, const std::string& source, const std::string& file) {
  const char* text = source.c_str();
  glShaderSource(shader, 1, &text, nullptr);
  glCompileShader(shader);
  GLint good = GL_FALSE;
  glGetShaderiv(shader, GL_COMPILE_STATUS, &good);
  if (good == GL_TRUE) return {};
  std::vector<char> log(2048, '\0');
  glGetShaderInfoLog(shader, static_cast<GLsizei>(log.size()), nullptr, log.data());
  return file + ": " + log.data();
}

const void* offset(std::size_t bytes) { return reinterpret_cast<const void*>(bytes); }

}  // namespace

Program::~Program() {
  if (id_ != 0) glDeleteProgram(id_);
}

std::string Program::load(const std::string& name) {
  id_ = glCreateProgram();
  try {
    const std::string folder = library::assets_dir() + "/shaders/";
    for (const auto& [end, kind] :
         {std::pair{".vert", GL_VERTEX_SHADER}, std::pair{".frag", GL_FRAGMENT_SHADER}}) {
      const std::string file = folder + name + end;
      const GLuint shader = glCreateShader(static_cast<GLenum>(kind));
      std::string wrong = compile(shader, library::read_file(file), file);
      glAttachShader(id_, shader);
      glDeleteShader(shader);
      if (!wrong.empty()) return wrong;
    }
  } catch (const std::runtime_error& failure) {
    return failure.what();
  }
  glLinkProgram(id_);
  GLint good = GL_FALSE;
  glGetProgramiv(id_, GL_LINK_STATUS, &good);
  return good == GL_TRUE ? std::string() : name + ": the shaders do not fit together";
}

void Program::set(const char* name, const Matrix& matrix) const {
  glUniformMatrix4fv(glGetUniformLocation(id_, name), 1, GL_FALSE, matrix.data());
}
void Program::set(const char* name, const std::array<float, 4>& v) const {
  glUniform4fv(glGetUniformLocation(id_, name), 1, v.data());
}
void Program::set(const char* name, const std::array<float, 3>& v) const {
  glUniform3fv(glGetUniformLocation(id_, name), 1, v.data());
}
void Program::set(const char* name, float v) const { glUniform1f(glGetUniformLocation(id_, name), v); }

Buffers::~Buffers() {
  if (array_ == 0) return;
  glDeleteVertexArrays(1, &array_);
  glDeleteBuffers(1, &corners_);
  glDeleteBuffers(1, &indices_);
}

void Buffers::fill(const void* corners, std::size_t bytes, bool coloured,
                   const std::vector<std::uint32_t>& indices, bool often) {
  if (array_ == 0) {
    glGenVertexArrays(1, &array_);
    glGenBuffers(1, &corners_);
    glGenBuffers(1, &indices_);
  }
  const GLenum use = often ? GL_STREAM_DRAW : GL_STATIC_DRAW;
  glBindVertexArray(array_);
  glBindBuffer(GL_ARRAY_BUFFER, corners_);
  glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(bytes), corners, use);
  glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, indices_);
  glBufferData(GL_ELEMENT_ARRAY_BUFFER, static_cast<GLsizeiptr>(indices.size() * sizeof(std::uint32_t)),
               indices.data(), use);
  const GLsizei stride = coloured ? 40 : 24;
  glEnableVertexAttribArray(0);
  glVertexAttribPointer(0, 3, GL_FLOAT, GL_FALSE, stride, offset(0));
  glEnableVertexAttribArray(1);
  glVertexAttribPointer(1, 3, GL_FLOAT, GL_FALSE, stride, offset(12));
  if (coloured) {
    glEnableVertexAttribArray(2);
    glVertexAttribPointer(2, 4, GL_FLOAT, GL_FALSE, stride, offset(24));
  } else {
    glDisableVertexAttribArray(2);
  }
  glBindVertexArray(0);
}

RenderTarget::~RenderTarget() { release(); }

void RenderTarget::release() {
  if (frame_ != 0) glDeleteFramebuffers(1, &frame_);
  if (colour_ != 0) glDeleteTextures(1, &colour_);
  if (depth_ != 0) glDeleteRenderbuffers(1, &depth_);
  frame_ = colour_ = depth_ = 0;
}

void RenderTarget::resize(int width, int height) {
  if (frame_ != 0 && width == width_ && height == height_) return;
  release();
  width_ = width;
  height_ = height;
  glGenTextures(1, &colour_);
  glBindTexture(GL_TEXTURE_2D, colour_);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
  for (const int filter : {GL_TEXTURE_MIN_FILTER, GL_TEXTURE_MAG_FILTER})
    glTexParameteri(GL_TEXTURE_2D, static_cast<GLenum>(filter), GL_LINEAR);
  for (const int wrap : {GL_TEXTURE_WRAP_S, GL_TEXTURE_WRAP_T})
    glTexParameteri(GL_TEXTURE_2D, static_cast<GLenum>(wrap), GL_CLAMP_TO_EDGE);
  glGenRenderbuffers(1, &depth_);
  glBindRenderbuffer(GL_RENDERBUFFER, depth_);
  glRenderbufferStorage(GL_RENDERBUFFER, GL_DEPTH_COMPONENT24, width, height);
  glGenFramebuffers(1, &frame_);
  glBindFramebuffer(GL_FRAMEBUFFER, frame_);
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, colour_, 0);
  glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_RENDERBUFFER, depth_);
}

void RenderTarget::bind() const {
  glBindFramebuffer(GL_FRAMEBUFFER, frame_);
  glViewport(0, 0, width_, height_);
}

void RenderTarget::copy_from(const RenderTarget& other) const {
  glBindFramebuffer(GL_READ_FRAMEBUFFER, other.frame_);
  glBindFramebuffer(GL_DRAW_FRAMEBUFFER, frame_);
  glBlitFramebuffer(0, 0, width_, height_, 0, 0, width_, height_, GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT,
                    GL_NEAREST);
}

}  // namespace stirbench::desk::views::body
