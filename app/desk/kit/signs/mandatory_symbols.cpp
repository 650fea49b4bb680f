#include "app/desk/kit/signs/symbols.h"

namespace stirbench::desk::kit {

namespace {

// A head over an open booklet.
void read(const SignPaper& p) {
  p.disc(0.5F, 0.27F, 0.09F);
  p.polygon({{0.22F, 0.45F}, {0.485F, 0.52F}, {0.485F, 0.78F}, {0.22F, 0.70F}});
  p.polygon({{0.78F, 0.45F}, {0.515F, 0.52F}, {0.515F, 0.78F}, {0.78F, 0.70F}});
  for (const float y : {0.54F, 0.61F}) {
    p.line(0.28F, y, 0.43F, y + 0.04F, 0.022F, true);
    p.line(0.72F, y, 0.57F, y + 0.04F, 0.022F, true);
  }
}

// A head from the front; what it wears is cut out.
void head(const SignPaper& p) {
  p.disc(0.5F, 0.40F, 0.205F);
  p.box(0.295F, 0.40F, 0.705F, 0.58F, 0.12F);
  p.polygon({{0.32F, 0.54F}, {0.68F, 0.54F}, {0.58F, 0.72F}, {0.42F, 0.72F}});
  p.polygon({{0.42F, 0.70F}, {0.58F, 0.70F}, {0.72F, 0.80F}, {0.28F, 0.80F}});
}

void eye_protection(const SignPaper& p) {
  head(p);
  p.box(0.27F, 0.375F, 0.73F, 0.405F, 0.0F, true);
  p.disc(0.405F, 0.42F, 0.088F, true);
  p.disc(0.595F, 0.42F, 0.088F, true);
  p.disc(0.405F, 0.42F, 0.058F);
  p.disc(0.595F, 0.42F, 0.058F);
}

void face_shield(const SignPaper& p) {
  p.disc(0.5F, 0.40F, 0.19F);
  p.polygon({{0.33F, 0.46F}, {0.67F, 0.46F}, {0.58F, 0.70F}, {0.42F, 0.70F}});
  p.polygon({{0.42F, 0.70F}, {0.58F, 0.70F}, {0.72F, 0.80F}, {0.28F, 0.80F}});
  p.box(0.28F, 0.315F, 0.72F, 0.375F, 0.02F, true);
  // The shield hangs from the band down over the chin.
  p.box(0.315F, 0.395F, 0.685F, 0.66F, 0.05F, true);
  p.box(0.345F, 0.42F, 0.655F, 0.635F, 0.04F);
}

void footwear(const SignPaper& p) {
  for (const float shift : {0.0F, 0.27F}) {
    const float x = 0.18F + shift;
    const float y = shift > 0.0F ? 0.03F : 0.0F;
    p.box(x + 0.02F, 0.27F + y, x + 0.16F, 0.62F + y, 0.02F);
    p.polygon({{x + 0.02F, 0.52F + y},
               {x + 0.17F, 0.50F + y},
               {x + 0.33F, 0.585F + y},
               {x + 0.33F, 0.66F + y},
               {x + 0.02F, 0.66F + y}});
    p.box(x + 0.01F, 0.68F + y, x + 0.34F, 0.72F + y);
    p.line(x + 0.05F, 0.34F + y, x + 0.16F, 0.34F + y, 0.02F, true);
  }
}

void glove(const SignPaper& p, float x, float y, float mirror) {
  const auto limb = [&](float x0, float y0, float x1, float y1, float w) {
    p.limb(x + mirror * x0, y + y0, x + mirror * x1, y + y1, w);
  };
  p.polygon(
      {{x - 0.095F, y + 0.0F}, {x + 0.095F, y + 0.0F}, {x + 0.085F, y + 0.17F}, {x - 0.085F, y + 0.17F}});
  p.box(x - 0.09F, y + 0.19F, x + 0.09F, y + 0.27F, 0.01F);
  limb(-0.07F, 0.02F, -0.085F, -0.13F, 0.05F);
  limb(-0.02F, 0.02F, -0.025F, -0.18F, 0.05F);
  limb(0.03F, 0.02F, 0.035F, -0.17F, 0.05F);
  limb(0.075F, 0.02F, 0.09F, -0.12F, 0.048F);
  limb(0.07F, 0.10F, 0.16F, -0.01F, 0.055F);
}

void gloves(const SignPaper& p) {
  glove(p, 0.34F, 0.46F, -1.0F);
  glove(p, 0.66F, 0.50F, 1.0F);
}

// Overalls: body, sleeves and legs.
void clothing(const SignPaper& p) {
  p.disc(0.5F, 0.215F, 0.075F);
  p.polygon({{0.39F, 0.32F}, {0.61F, 0.32F}, {0.61F, 0.60F}, {0.39F, 0.60F}});
  p.limb(0.385F, 0.36F, 0.29F, 0.585F, 0.085F);
  p.limb(0.615F, 0.36F, 0.71F, 0.585F, 0.085F);
  p.polygon({{0.39F, 0.58F}, {0.49F, 0.58F}, {0.485F, 0.84F}, {0.395F, 0.84F}});
  p.polygon({{0.51F, 0.58F}, {0.61F, 0.58F}, {0.605F, 0.84F}, {0.515F, 0.84F}});
  p.line(0.5F, 0.33F, 0.5F, 0.58F, 0.02F, true);
  p.line(0.40F, 0.52F, 0.60F, 0.52F, 0.02F, true);
}

// Water from a tap over two hands.
void wash_hands(const SignPaper& p) {
  p.box(0.24F, 0.22F, 0.56F, 0.28F);
  p.box(0.36F, 0.16F, 0.42F, 0.24F);
  p.box(0.50F, 0.22F, 0.56F, 0.36F);
  for (const float x : {0.49F, 0.53F, 0.57F}) p.line(x, 0.40F, x, 0.52F, 0.02F);
  p.limb(0.20F, 0.70F, 0.46F, 0.59F, 0.075F);
  p.limb(0.46F, 0.59F, 0.62F, 0.57F, 0.06F);
  p.limb(0.28F, 0.79F, 0.52F, 0.70F, 0.075F);
  p.limb(0.52F, 0.70F, 0.74F, 0.66F, 0.06F);
  p.line(0.26F, 0.755F, 0.66F, 0.635F, 0.02F, true);
}

// A plug pulled out of its socket.
void disconnect(const SignPaper& p) {
  p.box(0.20F, 0.36F, 0.40F, 0.64F, 0.05F);
  p.line(0.40F, 0.435F, 0.50F, 0.435F, 0.05F);
  p.line(0.40F, 0.565F, 0.50F, 0.565F, 0.05F);
  p.limb(0.08F, 0.50F, 0.20F, 0.50F, 0.055F);
  p.box(0.60F, 0.32F, 0.72F, 0.68F, 0.03F);
  p.line(0.60F, 0.435F, 0.66F, 0.435F, 0.055F, true);
  p.line(0.60F, 0.565F, 0.66F, 0.565F, 0.055F, true);
  p.limb(0.72F, 0.50F, 0.91F, 0.50F, 0.055F);
}

void keep_locked(const SignPaper& p) {
  p.arc(0.5F, 0.40F, 0.135F, -1.0F, 0.0F, 0.065F);
  p.line(0.365F, 0.39F, 0.365F, 0.50F, 0.065F);
  p.line(0.635F, 0.39F, 0.635F, 0.50F, 0.065F);
  p.box(0.29F, 0.47F, 0.71F, 0.79F, 0.03F);
  p.disc(0.5F, 0.585F, 0.045F, true);
  p.polygon({{0.48F, 0.60F}, {0.52F, 0.60F}, {0.535F, 0.70F}, {0.465F, 0.70F}}, true);
}

// A pointing hand: knuckles, one finger out.
void pointing_hand(const SignPaper& p) {
  p.polygon({{0.22F, 0.46F}, {0.42F, 0.42F}, {0.46F, 0.66F}, {0.26F, 0.68F}});
  p.limb(0.40F, 0.45F, 0.66F, 0.45F, 0.065F);
  for (const float y : {0.52F, 0.58F, 0.635F}) p.limb(0.40F, y, 0.50F, y, 0.055F);
  p.limb(0.34F, 0.45F, 0.42F, 0.375F, 0.06F);
}

void do_not_touch(const SignPaper& p) {
  pointing_hand(p);
  p.box(0.72F, 0.28F, 0.78F, 0.72F);
}

// A hand that goes down into an opening between two edges.
void no_reaching_in(const SignPaper& p) {
  p.limb(0.5F, 0.20F, 0.5F, 0.42F, 0.12F);
  p.box(0.425F, 0.40F, 0.575F, 0.56F, 0.03F);
  for (const float x : {0.45F, 0.50F, 0.55F}) p.limb(x, 0.54F, x, 0.68F - 0.3F * std::abs(x - 0.5F), 0.042F);
  p.limb(0.42F, 0.46F, 0.375F, 0.55F, 0.045F);
  p.box(0.19F, 0.58F, 0.35F, 0.63F);
  p.box(0.65F, 0.58F, 0.81F, 0.63F);
  p.line(0.325F, 0.60F, 0.325F, 0.80F, 0.05F);
  p.line(0.675F, 0.60F, 0.675F, 0.80F, 0.05F);
}

}  // namespace

void draw_mandatory_symbol(const SignPaper& paper, SignId which) {
  switch (which) {
    case SignId::m004: return eye_protection(paper);
    case SignId::m008: return footwear(paper);
    case SignId::m009: return gloves(paper);
    case SignId::m010: return clothing(paper);
    case SignId::m011: return wash_hands(paper);
    case SignId::m013: return face_shield(paper);
    case SignId::m021: return disconnect(paper);
    case SignId::m028: return keep_locked(paper);
    default: return read(paper);
  }
}

void draw_prohibition_symbol(const SignPaper& paper, SignId which) {
  if (which == SignId::p015)
    no_reaching_in(paper);
  else
    do_not_touch(paper);
}

}  // namespace stirbench::desk::kit
