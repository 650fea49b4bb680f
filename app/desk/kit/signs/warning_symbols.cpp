#include "app/desk/kit/signs/symbols.h"

namespace stirbench::desk::kit {

namespace {

void general(const SignPaper& p) {
  p.polygon({{0.455F, 0.36F}, {0.545F, 0.36F}, {0.525F, 0.65F}, {0.475F, 0.65F}});
  p.disc(0.5F, 0.745F, 0.045F);
}

// A six-armed crystal.
void low_temperature(const SignPaper& p) {
  constexpr float third = 3.14159265F / 3.0F;
  for (int arm = 0; arm < 6; ++arm) {
    const float angle = static_cast<float>(arm) * third + third * 0.5F;
    const float c = std::cos(angle);
    const float s = std::sin(angle);
    p.line(0.5F, 0.62F, 0.5F + 0.19F * c, 0.62F + 0.19F * s, 0.042F);
    for (const float turn : {-0.75F, 0.75F}) {
      p.line(0.5F + 0.11F * c, 0.62F + 0.11F * s, 0.5F + 0.11F * c + 0.075F * std::cos(angle + turn),
             0.62F + 0.11F * s + 0.075F * std::sin(angle + turn), 0.032F);
    }
  }
}

// A figure that falls backwards over a line.
void slippery(const SignPaper& p) {
  p.disc(0.425F, 0.405F, 0.05F);
  p.limb(0.44F, 0.49F, 0.50F, 0.62F, 0.075F);
  p.limb(0.44F, 0.49F, 0.56F, 0.475F, 0.042F);
  p.limb(0.44F, 0.50F, 0.345F, 0.565F, 0.042F);
  p.limb(0.50F, 0.62F, 0.60F, 0.585F, 0.055F);
  p.limb(0.60F, 0.585F, 0.67F, 0.665F, 0.05F);
  p.limb(0.50F, 0.62F, 0.425F, 0.70F, 0.05F);
  p.line(0.24F, 0.775F, 0.76F, 0.775F, 0.045F);
}

void electricity(const SignPaper& p) {
  p.polygon({{0.535F, 0.33F}, {0.575F, 0.345F}, {0.50F, 0.565F}, {0.41F, 0.565F}});
  p.polygon({{0.425F, 0.535F}, {0.595F, 0.535F}, {0.52F, 0.72F}, {0.475F, 0.705F}});
  p.polygon({{0.425F, 0.665F}, {0.575F, 0.715F}, {0.455F, 0.835F}});
}

void hot_surface(const SignPaper& p) {
  p.line(0.28F, 0.765F, 0.72F, 0.765F, 0.055F);
  for (const float x : {0.385F, 0.50F, 0.615F}) {
    p.curve({x, 0.71F}, {x - 0.11F, 0.63F}, {x + 0.11F, 0.55F}, {x, 0.46F}, 0.05F);
  }
}

// A toothed wheel with an arrow that goes round it by itself.
void automatic_start(const SignPaper& p) {
  p.disc(0.5F, 0.63F, 0.075F);
  for (int tooth = 0; tooth < 8; ++tooth) {
    const float a = static_cast<float>(tooth) * 0.7854F;
    p.line(0.5F, 0.63F, 0.5F + 0.105F * std::cos(a), 0.63F + 0.105F * std::sin(a), 0.042F);
  }
  p.disc(0.5F, 0.63F, 0.03F, true);
  p.arc(0.5F, 0.63F, 0.165F, -0.83F, 0.22F, 0.042F);
  p.polygon({{0.565F, 0.745F}, {0.71F, 0.73F}, {0.64F, 0.83F}});
}

// A flame over a line.
void flammable(const SignPaper& p) {
  p.polygon({{0.50F, 0.36F},
             {0.56F, 0.47F},
             {0.60F, 0.57F},
             {0.59F, 0.66F},
             {0.545F, 0.71F},
             {0.455F, 0.71F},
             {0.41F, 0.65F},
             {0.405F, 0.57F},
             {0.45F, 0.49F}});
  p.polygon({{0.405F, 0.60F}, {0.385F, 0.50F}, {0.455F, 0.56F}});
  p.polygon({{0.50F, 0.57F}, {0.535F, 0.64F}, {0.52F, 0.71F}, {0.48F, 0.71F}, {0.465F, 0.64F}}, true);
  p.line(0.30F, 0.765F, 0.70F, 0.765F, 0.05F);
}

// Two glasses that pour: on a bar and on a hand, both eaten into.
void corrosive(const SignPaper& p) {
  p.limb(0.36F, 0.475F, 0.475F, 0.425F, 0.05F);
  p.limb(0.64F, 0.475F, 0.525F, 0.425F, 0.05F);
  for (const float x : {0.375F, 0.625F}) {
    p.disc(x, 0.545F, 0.02F);
    p.disc(x, 0.60F, 0.02F);
  }
  p.box(0.255F, 0.665F, 0.475F, 0.725F);
  p.polygon({{0.335F, 0.655F}, {0.415F, 0.655F}, {0.375F, 0.715F}}, true);
  p.limb(0.555F, 0.685F, 0.70F, 0.70F, 0.06F);
  p.limb(0.70F, 0.70F, 0.745F, 0.745F, 0.045F);
  p.disc(0.625F, 0.655F, 0.028F, true);
  p.line(0.26F, 0.79F, 0.74F, 0.79F, 0.035F);
}

// A hand between two closing plates.
void crushed_hand(const SignPaper& p) {
  p.box(0.40F, 0.40F, 0.60F, 0.465F);
  p.polygon({{0.45F, 0.465F}, {0.55F, 0.465F}, {0.50F, 0.53F}});
  p.line(0.26F, 0.79F, 0.74F, 0.79F, 0.05F);
  p.polygon({{0.27F, 0.655F}, {0.44F, 0.605F}, {0.46F, 0.735F}, {0.29F, 0.755F}});
  for (int finger = 0; finger < 3; ++finger) {
    const float y = 0.628F + 0.046F * static_cast<float>(finger);
    p.limb(0.42F, y, 0.68F - 0.03F * static_cast<float>(std::abs(finger - 1)), y, 0.034F);
  }
  p.limb(0.40F, 0.61F, 0.48F, 0.565F, 0.036F);
}

}  // namespace

void draw_warning_symbol(const SignPaper& paper, SignId which) {
  switch (which) {
    case SignId::w010: return low_temperature(paper);
    case SignId::w011: return slippery(paper);
    case SignId::w012: return electricity(paper);
    case SignId::w017: return hot_surface(paper);
    case SignId::w018: return automatic_start(paper);
    case SignId::w021: return flammable(paper);
    case SignId::w023: return corrosive(paper);
    case SignId::w024: return crushed_hand(paper);
    default: return general(paper);
  }
}

}  // namespace stirbench::desk::kit
