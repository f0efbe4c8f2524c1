// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "store/bytes.h"
#include "store/secret.h"

// The few libsodium calls that the store rests on, with lengths and ownership settled. Nothing here is an
// algorithm of our own; each function names the call that it stands for.

namespace evenfall::crypto {

/// Readies libsodium. Must have been called before anything else here; cheap when repeated.
void ready();

Bytes random_bytes(std::size_t count);         ///< randombytes_buf
SecretBytes random_secret(std::size_t count);  ///< randombytes_buf into locked memory
std::string new_id();                          ///< 16 random bytes as 32 hexadecimal digits

/// BLAKE2b (crypto_generichash) of 16 to 64 bytes, keyed where `key` is not empty (16 to 64 bytes).
Bytes hash(std::string_view message, std::size_t length = 32, std::string_view key = {});

/// BLAKE2b of 32 bytes over two texts in a row, without putting them together first.
Bytes hash_of_both(std::string_view first, std::string_view second);

/// Whether the same hash is `expected`.
bool hash_of_both_is(std::string_view first, std::string_view second, std::string_view expected);

/// Seals with XChaCha20-Poly1305 (IETF form): a fresh random nonce of 24 bytes, then the sealed text.
Bytes seal(std::string_view message, std::string_view associated, const SecretBytes& key);
/// As `seal` with a nonce that is given; only `seal` and published test vectors need it.
Bytes seal_with_nonce(std::string_view message, std::string_view associated, std::string_view nonce,
                      const SecretBytes& key);
/// The text under a seal, into locked memory; nothing where key, associated data or a byte does not fit.
std::optional<SecretBytes> open_secret(std::string_view sealed, std::string_view associated,
                                       const SecretBytes& key);
/// The same for text that is not key material.
std::optional<Bytes> open(std::string_view sealed, std::string_view associated, const SecretBytes& key);
/// The same into bytes that are there already, whose memory is used again; whether it fits.
bool open_into(Bytes& text, std::string_view sealed, std::string_view associated, const SecretBytes& key);

inline constexpr std::size_t kKeyBytes = 32;
inline constexpr std::size_t kNonceBytes = 24;
inline constexpr std::size_t kSealExtra = 40;  ///< nonce and tag together

/// Cost of a passphrase's key: Argon2id passes and bytes of memory.
struct Kdf {
    // As long as libsodium's "moderate" (3 passes over 256 MB, about 0.4 s on a laptop of 2020), in so little
    // memory that the program stays below 150 MB while it unlocks: more passes make up for it.
    std::uint64_t passes = 8;
    std::uint64_t memory = 96ULL << 20;
    bool operator==(const Kdf&) const = default;
    static Kdf least() { return {1, 8192}; }  ///< for tests only: it protects nothing
};

/// A key from a passphrase and 16 bytes of salt (crypto_pwhash, Argon2id v1.3, one lane). Nothing if memory
/// lacks.
std::optional<SecretBytes> passphrase_key(std::string_view passphrase, std::string_view salt, Kdf kdf,
                                          std::size_t length = kKeyBytes);

/// A subkey of 32 bytes for one purpose (crypto_kdf_derive_from_key, context "evenfall").
SecretBytes subkey(const SecretBytes& key, std::uint64_t purpose);

/// The public half of a signing seed of 32 bytes (crypto_sign_seed_keypair).
Bytes signing_public(const SecretBytes& seed);
/// The long secret key that `sign` takes, from its seed.
SecretBytes signing_secret(const SecretBytes& seed);
Bytes sign(std::string_view message, const SecretBytes& secret);  ///< Ed25519, 64 bytes
bool verify(std::string_view message, std::string_view signature, std::string_view public_key);

/// The public half of a seed of 32 bytes for receiving keys (crypto_box_seed_keypair).
Bytes box_public(const SecretBytes& seed);
/// Seals a key so that only the holder of `public_key`'s seed can open it (crypto_box_seal). Nothing where
/// `public_key` is none that can be sealed to.
std::optional<Bytes> box_seal(const SecretBytes& key, std::string_view public_key);
std::optional<SecretBytes> box_open(std::string_view sealed, const SecretBytes& seed);

}  // namespace evenfall::crypto
