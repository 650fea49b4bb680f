#include <clocale>

#define DOCTEST_CONFIG_IMPLEMENT
#include <doctest/doctest.h>

// One main for every group. The locale stays "C" for numbers whatever the machine's settings are, as in the
// program.
int main(int argc, char** argv) {
  std::setlocale(LC_NUMERIC, "C");
  doctest::Context context(argc, argv);
  return context.run();
}
