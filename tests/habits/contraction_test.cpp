#include <doctest/doctest.h>

#include <cmath>

namespace {

// volatile keeps the compiler from working the sum out itself: what runs must be the code the flags produced.
double multiply_add(volatile double& a, volatile double& x, volatile double& c) {
  const double a_now = a;
  const double x_now = x;
  const double c_now = c;
  return a_now * x_now + c_now;
}

}  // namespace

// Source: IEEE 754-2019, 5.4.1 (multiplication and addition round separately; fusedMultiplyAdd rounds once).
// With a = 1 + 2^-27 and x = 1 - 2^-27 the exact product 1 - 2^-54 rounds to 1, so a*x - 1 is 0 unfused and
// -2^-54 fused.
TEST_CASE("multiplication and addition are not contracted into one rounding") {
  volatile double a = 1.0 + 0x1p-27;
  volatile double x = 1.0 - 0x1p-27;
  volatile double c = -1.0;
  CHECK(multiply_add(a, x, c) == 0.0);
  // The vector tells the two apart: the fused operation does give the other answer.
  CHECK(std::fma(static_cast<double>(a), static_cast<double>(x), static_cast<double>(c)) == -0x1p-54);
}
