#include <iostream>

// Prints the version until the command line takes over the arguments.
int main() {
  std::cout << "stirbench " << STIRBENCH_VERSION << '\n';
  return 0;
}
