#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

// Hashes, random identities, signatures: thin names over libsodium.
namespace stirbench::records {

// SHA-256 (FIPS 180-4), 64 hex digits.
std::string sha256_hex(std::string_view bytes);
// Of a whole file; empty when it cannot be read.
std::string sha256_of_file(const std::string& file);

// The chain: h0 = 32 zero bytes, h_i = SHA-256(h_(i-1) | u64le(length) | bytes). The length keeps two entries
// from being read as one. `before` and the result are hex.
inline constexpr const char* chain_start = "0000000000000000000000000000000000000000000000000000000000000000";
std::string chain_step(std::string_view before, std::string_view bytes);

// A random UUID (RFC 4122, version 4).
std::string random_uuid();
std::uint64_t random_seed();  // 31 bits, for a sealed test
std::string random_hex(std::size_t bytes);

// RFC 4648, with padding. Decoding is strict: what it accepts encodes to the same text again.
std::string to_base64(std::string_view bytes);
std::optional<std::string> from_base64(std::string_view text);

// Ed25519 (RFC 8032). Keys and signatures are raw bytes: 32 (seed), 32 (public), 64.
struct KeyPair {
  std::string seed;
  std::string public_key;
};
KeyPair make_key_pair();
KeyPair key_pair_of(std::string_view seed);
std::string sign(std::string_view seed, std::string_view bytes);
bool verify_signature(std::string_view public_key, std::string_view bytes, std::string_view signature);

// Argon2id (RFC 9106) in its encoded form. Cost of a shared training-room machine: 64 MiB, three passes.
struct PinCost {
  std::uint64_t passes = 3;
  std::uint64_t memory_bytes = 64U << 20U;
};
std::string hash_pin(const std::string& pin, const PinCost& cost);
bool pin_matches(const std::string& encoded, const std::string& pin);
bool pin_needs_rehash(const std::string& encoded, const PinCost& cost);

}  // namespace stirbench::records
