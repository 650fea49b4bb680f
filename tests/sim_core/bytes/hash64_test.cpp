#include <doctest/doctest.h>

#include "sim_core/bytes/hash64.h"

using namespace stirbench::bytes;

TEST_CASE("FNV-1a gives its published values, in one go and in pieces") {
  CHECK(fnv1a("") == 0xcbf29ce484222325ULL);
  CHECK(fnv1a("a") == 0xaf63dc4c8601ec8cULL);
  CHECK(fnv1a("foobar") == 0x85944171f73967e8ULL);
  CHECK(fnv1a("bar", fnv1a("foo")) == fnv1a("foobar"));
  // A byte above 127 counts as it is, not with a sign.
  CHECK(fnv1a("\xff") == (fnv_basis ^ 0xffULL) * fnv_prime);
  CHECK(mark("foobar") == fnv1a("foobar"));
}

TEST_CASE("hexadecimal digits: 16 of them, lower case, and back") {
  CHECK(hex64(0) == "0000000000000000");
  CHECK(hex64(0x0123456789abcdefULL) == "0123456789abcdef");
  CHECK(hex64(~0ULL) == "ffffffffffffffff");
  std::string out = "%";
  append_hex8(out, 0xc3, upper_digits);
  CHECK(out == "%C3");
  for (const std::uint64_t value : {std::uint64_t{0}, std::uint64_t{1}, fnv_basis, ~std::uint64_t{0}})
    CHECK(from_hex64(hex64(value)) == value);
  for (const char* bad : {"", "0", "0123456789ABCDEF", "0123456789abcde", "0123456789abcdef0",
                          "0123456789abcdeg", " 123456789abcdef"}) {
    CAPTURE(bad);
    CHECK_FALSE(from_hex64(bad).has_value());
  }
}
