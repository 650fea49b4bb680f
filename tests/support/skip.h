#pragma once

#include <string>

namespace stirbench::test_support {

// Says that the running test case is left out, wholly or in part, because the Debian package `package` is not
// there (empty: for a reason that no package mends). Prints "SKIPPED: <test case>: <what is left out>
// (package <package>)", once for a test case; tests/run counts and names such a case as skipped, not as
// passed, and fails when the package is one that it installs. Call it from the thread of the test.
void skip(const std::string& left_out, const std::string& package);

// The path of a program in /usr/bin, /usr/local/bin or /bin. Where it is missing the running test case is
// skipped (see above) and the answer is empty.
std::string program_or_skip(const std::string& program, const std::string& package);

// True when /usr/bin/python3 can import `module`; where it cannot, the running test case is skipped.
bool python_module_or_skip(const std::string& module, const std::string& package);

}  // namespace stirbench::test_support
