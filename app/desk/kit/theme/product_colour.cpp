#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "app/desk/kit/theme/theme.h"

// Product colour by temperature, mixed in the OKLab space (B. Ottosson, "A perceptual color space for image
// processing", 2020, public domain formulas), where equal steps look equal. Blue to cream to orange-brown
// stays apart for red-green and blue-yellow colour blindness because lightness changes along with hue on both
// arms.
namespace stirbench::desk::kit {

namespace {

struct Lab {
  double l;
  double a;
  double b;
};

double linear(std::uint8_t channel) {
  const double c = channel / 255.0;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

std::uint8_t encoded(double value) {
  const double l = std::clamp(value, 0.0, 1.0);
  const double c = l <= 0.0031308 ? l * 12.92 : 1.055 * std::pow(l, 1.0 / 2.4) - 0.055;
  return static_cast<std::uint8_t>(std::lround(c * 255.0));
}

Lab to_lab(Colour colour) {
  const double r = linear(colour.r);
  const double g = linear(colour.g);
  const double b = linear(colour.b);
  const double l = std::cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const double m = std::cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const double s = std::cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return {0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s,
          1.9779984951 * l - 2.4285922050 * m + 0.4505937099 * s,
          0.0259040371 * l + 0.7827717662 * m - 0.8086757660 * s};
}

Colour from_lab(const Lab& lab) {
  const double l = std::pow(lab.l + 0.3963377774 * lab.a + 0.2158037573 * lab.b, 3.0);
  const double m = std::pow(lab.l - 0.1055613458 * lab.a - 0.0638541728 * lab.b, 3.0);
  const double s = std::pow(lab.l - 0.0894841775 * lab.a - 1.2914855480 * lab.b, 3.0);
  return {encoded(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s),
          encoded(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s),
          encoded(-0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s), 255};
}

constexpr double cold_degC = 0.0;
constexpr double middle_degC = 40.0;
constexpr double hot_degC = 95.0;

}  // namespace

Colour product_colour(double temp_degC) {
  static const Lab cold = to_lab({111, 158, 208, 255});
  static const Lab middle = to_lab({247, 237, 214, 255});
  static const Lab hot = to_lab({226, 138, 62, 255});
  const double t = std::isfinite(temp_degC) ? std::clamp(temp_degC, cold_degC, hot_degC) : middle_degC;
  const bool warm = t > middle_degC;
  const Lab& from = warm ? middle : cold;
  const Lab& to = warm ? hot : middle;
  const double share =
      warm ? (t - middle_degC) / (hot_degC - middle_degC) : (t - cold_degC) / (middle_degC - cold_degC);
  return from_lab(
      {from.l + (to.l - from.l) * share, from.a + (to.a - from.a) * share, from.b + (to.b - from.b) * share});
}

}  // namespace stirbench::desk::kit
