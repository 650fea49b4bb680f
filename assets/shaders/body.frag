#version 330 core
// Soft light from a large lamp in front on the left, sky and floor in what shines, a darker hatched face where a part is cut open.
in vec3 v_point;
in vec3 v_normal;
in vec4 v_colour;
uniform vec3 u_eye;
uniform vec4 u_colour;      // multiplied with the corner's colour
uniform vec3 u_surface;     // metal, gloss, glow
uniform vec4 u_mark;        // colour of a highlight and its share
uniform float u_flat;       // 1: no light at all (ground, steam, lines)
uniform float u_hatch;      // 1: cut faces are hatched
out vec4 out_colour;
void main() {
  vec4 base = u_colour * v_colour;
  if (u_flat > 0.5) {
    out_colour = base;
    return;
  }
  if (!gl_FrontFacing) {
    float stripe = step(0.5, fract((gl_FragCoord.x + gl_FragCoord.y) * 0.125));
    vec3 face = base.rgb * mix(0.97, mix(0.62, 0.74, stripe), u_hatch);
    out_colour = vec4(mix(face, u_mark.rgb, u_mark.a), base.a);
    return;
  }
  vec3 n = normalize(v_normal);
  vec3 to_eye = normalize(u_eye - v_point);
  const vec3 lamp = vec3(-0.48, -0.62, 0.62);
  float light = max(dot(n, lamp), 0.0);
  float around = 0.5 + 0.5 * n.z;
  vec3 matt = base.rgb * (mix(0.58, 0.86, around) + 0.30 * light);
  vec3 r = reflect(-to_eye, n);
  // A light room: floor below, ceiling above, a tall window on the left, a smaller one far right, a darker wall behind the eye.
  float sky = smoothstep(-0.55, 0.55, r.z);
  vec3 mirror = mix(vec3(0.58, 0.565, 0.545), vec3(0.97, 0.98, 1.0), sky);
  float level = exp(-5.0 * r.z * r.z);
  float round = r.x * 0.8 + r.y * 0.6;
  mirror *= 1.0 - 0.24 * level * smoothstep(0.25, -0.75, round);
  mirror += 0.34 * level * smoothstep(0.70, 0.95, dot(normalize(r.xy + vec2(1e-4)), vec2(-0.72, -0.69)));
  mirror += 0.20 * level * smoothstep(0.90, 0.99, dot(normalize(r.xy + vec2(1e-4)), vec2(0.95, -0.31)));
  vec3 shade = mix(matt, base.rgb * mirror * (0.92 + 0.22 * light), u_surface.x);
  float spark = max(dot(n, normalize(lamp + to_eye)), 0.0);
  shade += u_surface.y * 0.55 * pow(spark, 36.0);
  float rim = 1.0 - max(dot(n, to_eye), 0.0);
  shade *= 1.0 - 0.38 * rim * rim * rim;
  shade = mix(shade, base.rgb, u_surface.z);
  shade = mix(shade, u_mark.rgb, u_mark.a * (0.55 + 0.45 * rim));
  out_colour = vec4(shade, base.a);
}
