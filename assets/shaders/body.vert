#version 330 core
// A part of the machine, or an effect with a colour at each corner.
layout(location = 0) in vec3 in_point;
layout(location = 1) in vec3 in_normal;
layout(location = 2) in vec4 in_colour;
uniform mat4 u_view;      // machine to picture
uniform mat4 u_pose;      // part to machine
uniform vec4 u_plane;     // what lies on its negative side is taken away; 0,0,0,1 takes nothing
uniform float u_bias;     // lines and marks come a hair nearer
out vec3 v_point;
out vec3 v_normal;
out vec4 v_colour;
void main() {
  vec4 world = u_pose * vec4(in_point, 1.0);
  v_point = world.xyz;
  v_normal = mat3(u_pose) * in_normal;
  v_colour = in_colour;
  gl_ClipDistance[0] = dot(u_plane, world);
  gl_Position = u_view * world;
  gl_Position.z -= u_bias * gl_Position.w;
}
