#include "app/records/hash.h"

#include <doctest/doctest.h>

using namespace stirbench::records;

namespace {

std::string unhex(const std::string& hex) {
  std::string out;
  for (std::size_t i = 0; i + 1 < hex.size(); i += 2)
    out += static_cast<char>(std::stoi(hex.substr(i, 2), nullptr, 16));
  return out;
}

}  // namespace

// Source: the linear hash chain with a length before each entry, SHA-256 (FIPS 180-4); heads computed apart
// from this program.
TEST_CASE("the chain's vectors") {
  std::string head = chain_start;
  head = chain_step(head, R"({"seq":1,"ev":"start"})");
  CHECK(head == "a1363a5ba5dcca9cebc4e7ee3d27ced8d0d100ad081f87af25a75fa370a720f4");
  head = chain_step(head, R"({"seq":2,"ev":"guard_open"})");
  CHECK(head == "4843f3dcf87500925b6283dc9aaa4ffacaf5cabcf8580188763efcb41444294b");
  head = chain_step(head, R"({"seq":3,"ev":"reset"})");
  CHECK(head == "f5c34727e5f4509525ff47e5f119126f718c67d4d0c40e03f8dc8220f6c47b7a");
  CHECK(chain_step("not hex", "x") == "");
  CHECK(sha256_hex("abc") ==
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");  // FIPS 180-4, appendix
}

// Source: the test vectors of the Argon2 reference implementation (version 0x13), in its encoded form.
TEST_CASE("Argon2id: the reference's vectors verify, other PINs do not") {
  const std::string small =
      "$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4";
  CHECK(pin_matches(small, "password"));
  CHECK_FALSE(pin_matches(small, "passwore"));
  const std::string large =
      "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc";
  CHECK(pin_matches(large, "password"));
  const std::string own = hash_pin("1357", {1, 8192});
  CHECK(own.rfind("$argon2id$v=19$m=8,t=1,p=1$", 0) == 0);
  CHECK(pin_matches(own, "1357"));
  CHECK_FALSE(pin_matches(own, "1358"));
  CHECK(own != hash_pin("1357", {1, 8192}));  // a salt of its own
  CHECK(pin_needs_rehash(own, {}));
  CHECK_FALSE(pin_needs_rehash(own, {1, 8192}));
}

// Source: RFC 8032, section 7.1, tests 1 and 2.
TEST_CASE("Ed25519: the standard's vectors") {
  const KeyPair one = key_pair_of(unhex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60"));
  CHECK(one.public_key == unhex("d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a"));
  const std::string signature = sign(one.seed, "");
  CHECK(signature == unhex("e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc"
                           "61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b"));
  CHECK(verify_signature(one.public_key, "", signature));
  CHECK_FALSE(verify_signature(one.public_key, "x", signature));
  const KeyPair two = key_pair_of(unhex("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb"));
  CHECK(two.public_key == unhex("3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c"));
  CHECK(verify_signature(two.public_key, "\x72", sign(two.seed, "\x72")));
}

// Source: RFC 4648, section 10; RFC 4122, section 4.4.
TEST_CASE("base64 and random identities") {
  CHECK(to_base64("foobar") == "Zm9vYmFy");
  CHECK(to_base64("fooba") == "Zm9vYmE=");
  CHECK(to_base64("") == "");
  CHECK(from_base64("Zm9vYg==") == "foob");
  CHECK_FALSE(from_base64("Zm9vYh=="));  // spare bits set
  CHECK_FALSE(from_base64("Zm9vYg"));
  CHECK_FALSE(from_base64("Zm9v\nYg=="));
  const std::string uid = random_uuid();
  REQUIRE(uid.size() == 36);
  CHECK(uid[14] == '4');
  CHECK(std::string("89ab").find(uid[19]) != std::string::npos);
  CHECK(uid != random_uuid());
  for (int i = 0; i < 100; ++i) CHECK(random_seed() >= 1);
}
