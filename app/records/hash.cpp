#include "app/records/hash.h"

#include <sodium.h>

#include <array>
#include <fstream>
#include <stdexcept>
#include <vector>

namespace stirbench::records {

namespace {

void ready() {
  static const bool good = sodium_init() >= 0;
  if (!good)
    throw std::runtime_error("libsodium cannot be started: this machine has no source of random numbers.");
}

const unsigned char* bytes_of(std::string_view text) {
  return reinterpret_cast<const unsigned char*>(text.data());
}

std::string hex_of(const unsigned char* bytes, std::size_t count) {
  std::string out(count * 2 + 1, '\0');
  sodium_bin2hex(out.data(), out.size(), bytes, count);
  out.pop_back();
  return out;
}

std::string text_of(const unsigned char* bytes, std::size_t count) {
  return {reinterpret_cast<const char*>(bytes), count};
}

using Hash = std::array<unsigned char, crypto_hash_sha256_BYTES>;

}  // namespace

std::string sha256_hex(std::string_view bytes) {
  ready();
  Hash out{};
  crypto_hash_sha256(out.data(), bytes_of(bytes), bytes.size());
  return hex_of(out.data(), out.size());
}

std::string sha256_of_file(const std::string& file) {
  ready();
  std::ifstream in(file, std::ios::binary);
  if (!in) return {};
  crypto_hash_sha256_state state;
  crypto_hash_sha256_init(&state);
  std::array<char, 65536> part{};
  while (in) {
    in.read(part.data(), static_cast<std::streamsize>(part.size()));
    crypto_hash_sha256_update(&state, reinterpret_cast<const unsigned char*>(part.data()),
                              static_cast<unsigned long long>(in.gcount()));
  }
  if (in.bad()) return {};
  Hash out{};
  crypto_hash_sha256_final(&state, out.data());
  return hex_of(out.data(), out.size());
}

std::string chain_step(std::string_view before, std::string_view bytes) {
  ready();
  Hash from{};
  std::size_t count = 0;
  if (sodium_hex2bin(from.data(), from.size(), before.data(), before.size(), nullptr, &count, nullptr) != 0 ||
      count != from.size())
    return {};
  std::array<unsigned char, 8> length{};
  for (std::size_t i = 0; i < length.size(); ++i)
    length[i] = static_cast<unsigned char>((static_cast<std::uint64_t>(bytes.size()) >> (8 * i)) & 0xffU);
  crypto_hash_sha256_state state;
  crypto_hash_sha256_init(&state);
  crypto_hash_sha256_update(&state, from.data(), from.size());
  crypto_hash_sha256_update(&state, length.data(), length.size());
  crypto_hash_sha256_update(&state, bytes_of(bytes), bytes.size());
  Hash out{};
  crypto_hash_sha256_final(&state, out.data());
  return hex_of(out.data(), out.size());
}

std::string random_hex(std::size_t bytes) {
  ready();
  std::vector<unsigned char> raw(bytes);
  randombytes_buf(raw.data(), raw.size());
  return hex_of(raw.data(), raw.size());
}

std::string random_uuid() {
  ready();
  std::array<unsigned char, 16> raw{};
  randombytes_buf(raw.data(), raw.size());
  raw[6] = static_cast<unsigned char>((raw[6] & 0x0fU) | 0x40U);
  raw[8] = static_cast<unsigned char>((raw[8] & 0x3fU) | 0x80U);
  const std::string hex = hex_of(raw.data(), raw.size());
  std::string out;
  for (std::size_t i = 0; i < hex.size(); ++i) {
    if (i == 8 || i == 12 || i == 16 || i == 20) out += '-';
    out += hex[i];
  }
  return out;
}

std::uint64_t random_seed() {
  ready();
  return randombytes_uniform(2147483647U) + 1U;
}

std::string to_base64(std::string_view bytes) {
  std::string out(sodium_base64_encoded_len(bytes.size(), sodium_base64_VARIANT_ORIGINAL), '\0');
  sodium_bin2base64(out.data(), out.size(), bytes_of(bytes), bytes.size(), sodium_base64_VARIANT_ORIGINAL);
  out.pop_back();
  return out;
}

std::optional<std::string> from_base64(std::string_view text) {
  std::string out(text.size() / 4 * 3 + 3, '\0');
  std::size_t count = 0;
  const char* end = nullptr;
  if (sodium_base642bin(reinterpret_cast<unsigned char*>(out.data()), out.size(), text.data(), text.size(),
                        nullptr, &count, &end, sodium_base64_VARIANT_ORIGINAL) != 0 ||
      end != text.data() + text.size())
    return std::nullopt;
  out.resize(count);
  if (to_base64(out) != text) return std::nullopt;
  return out;
}

KeyPair make_key_pair() {
  ready();
  std::array<unsigned char, crypto_sign_SEEDBYTES> seed{};
  randombytes_buf(seed.data(), seed.size());
  return key_pair_of(text_of(seed.data(), seed.size()));
}

KeyPair key_pair_of(std::string_view seed) {
  ready();
  if (seed.size() != crypto_sign_SEEDBYTES) throw std::runtime_error("a site key has 32 bytes");
  std::array<unsigned char, crypto_sign_PUBLICKEYBYTES> pub{};
  std::array<unsigned char, crypto_sign_SECRETKEYBYTES> secret{};
  crypto_sign_seed_keypair(pub.data(), secret.data(), bytes_of(seed));
  return {std::string(seed), text_of(pub.data(), pub.size())};
}

std::string sign(std::string_view seed, std::string_view bytes) {
  ready();
  if (seed.size() != crypto_sign_SEEDBYTES) throw std::runtime_error("a site key has 32 bytes");
  std::array<unsigned char, crypto_sign_PUBLICKEYBYTES> pub{};
  std::array<unsigned char, crypto_sign_SECRETKEYBYTES> secret{};
  crypto_sign_seed_keypair(pub.data(), secret.data(), bytes_of(seed));
  std::array<unsigned char, crypto_sign_BYTES> out{};
  crypto_sign_detached(out.data(), nullptr, bytes_of(bytes), bytes.size(), secret.data());
  sodium_memzero(secret.data(), secret.size());
  return text_of(out.data(), out.size());
}

bool verify_signature(std::string_view public_key, std::string_view bytes, std::string_view signature) {
  ready();
  if (public_key.size() != crypto_sign_PUBLICKEYBYTES || signature.size() != crypto_sign_BYTES) return false;
  return crypto_sign_verify_detached(bytes_of(signature), bytes_of(bytes), bytes.size(),
                                     bytes_of(public_key)) == 0;
}

std::string hash_pin(const std::string& pin, const PinCost& cost) {
  ready();
  std::array<char, crypto_pwhash_STRBYTES> out{};
  if (crypto_pwhash_str_alg(out.data(), pin.data(), pin.size(), cost.passes,
                            static_cast<std::size_t>(cost.memory_bytes), crypto_pwhash_ALG_ARGON2ID13) != 0)
    throw std::runtime_error(
        "There is not enough memory to keep the PIN safely. Close other programs and try again.");
  return out.data();
}

bool pin_matches(const std::string& encoded, const std::string& pin) {
  ready();
  return crypto_pwhash_str_verify(encoded.c_str(), pin.data(), pin.size()) == 0;
}

bool pin_needs_rehash(const std::string& encoded, const PinCost& cost) {
  ready();
  return crypto_pwhash_str_needs_rehash(encoded.c_str(), cost.passes,
                                        static_cast<std::size_t>(cost.memory_bytes)) != 0;
}

}  // namespace stirbench::records
