// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/crypto.h"

#include <array>
#include <stdexcept>

#include <sodium.h>

namespace evenfall {

std::string to_hex(std::string_view bytes) {
    std::string hex(bytes.size() * 2 + 1, '\0');
    sodium_bin2hex(hex.data(), hex.size(), reinterpret_cast<const unsigned char*>(bytes.data()),
                   bytes.size());
    hex.pop_back();
    return hex;
}

std::optional<Bytes> from_hex(std::string_view hex) {
    Bytes bytes(hex.size() / 2, '\0');
    std::size_t length = 0;
    const int result = sodium_hex2bin(reinterpret_cast<unsigned char*>(bytes.data()), bytes.size(),
                                      hex.data(), hex.size(), nullptr, &length, nullptr);
    if (hex.size() % 2 != 0 || result != 0 || length != bytes.size()) return std::nullopt;
    return bytes;
}

void append_number(Bytes& to, std::int64_t value) {
    auto bits = static_cast<std::uint64_t>(value);
    std::array<char, 8> eight{};
    for (char& each : eight) {
        each = static_cast<char>(bits & 0xFF);
        bits >>= 8;
    }
    to.append(eight.data(), eight.size());
}

}  // namespace evenfall

namespace evenfall::crypto {

namespace {

constexpr std::size_t kHashBytes = 32;

const unsigned char* raw(std::string_view bytes) {
    return reinterpret_cast<const unsigned char*>(bytes.data());
}

unsigned char* raw(Bytes& bytes) {
    return reinterpret_cast<unsigned char*>(bytes.data());
}

/// A length or key that libsodium would misread is a broken promise of ours, never the file's.
void require(bool holds, const char* what) {
    if (!holds) throw std::logic_error(what);
}

bool open_at(unsigned char* to, std::string_view sealed, std::string_view associated,
             const SecretBytes& key) {
    const std::string_view text = sealed.substr(kNonceBytes);
    return crypto_aead_xchacha20poly1305_ietf_decrypt(to, nullptr, nullptr, raw(text), text.size(),
                                                      raw(associated), associated.size(), raw(sealed),
                                                      key.data()) == 0;
}

}  // namespace

void ready() {
    if (sodium_init() < 0) throw std::runtime_error("libsodium cannot be started");
}

Bytes random_bytes(std::size_t count) {
    Bytes bytes(count, '\0');
    randombytes_buf(bytes.data(), count);
    return bytes;
}

SecretBytes random_secret(std::size_t count) {
    SecretBytes bytes(count);
    randombytes_buf(bytes.data(), count);
    return bytes;
}

std::string new_id() {
    return to_hex(random_bytes(16));
}

Bytes hash(std::string_view message, std::size_t length, std::string_view key) {
    Bytes result(length, '\0');
    const int failed = crypto_generichash(raw(result), length, raw(message), message.size(),
                                          key.empty() ? nullptr : raw(key), key.size());
    require(failed == 0, "hash: length or key out of range");
    return result;
}

namespace {

void hash_both_to(unsigned char* to, std::string_view first, std::string_view second) {
    crypto_generichash_state state;
    crypto_generichash_init(&state, nullptr, 0, kHashBytes);
    crypto_generichash_update(&state, raw(first), first.size());
    crypto_generichash_update(&state, raw(second), second.size());
    crypto_generichash_final(&state, to, kHashBytes);
}

}  // namespace

Bytes hash_of_both(std::string_view first, std::string_view second) {
    Bytes result(kHashBytes, '\0');
    hash_both_to(raw(result), first, second);
    return result;
}

bool hash_of_both_is(std::string_view first, std::string_view second, std::string_view expected) {
    std::array<unsigned char, kHashBytes> found{};
    hash_both_to(found.data(), first, second);
    return expected == std::string_view(reinterpret_cast<const char*>(found.data()), found.size());
}

Bytes seal_with_nonce(std::string_view message, std::string_view associated, std::string_view nonce,
                      const SecretBytes& key) {
    require(nonce.size() == kNonceBytes && key.size() == kKeyBytes, "seal: nonce or key of the wrong length");
    Bytes sealed(message.size() + kSealExtra, '\0');
    nonce.copy(sealed.data(), kNonceBytes);
    crypto_aead_xchacha20poly1305_ietf_encrypt(raw(sealed) + kNonceBytes, nullptr, raw(message),
                                               message.size(), raw(associated), associated.size(), nullptr,
                                               raw(nonce), key.data());
    return sealed;
}

Bytes seal(std::string_view message, std::string_view associated, const SecretBytes& key) {
    return seal_with_nonce(message, associated, random_bytes(kNonceBytes), key);
}

std::optional<SecretBytes> open_secret(std::string_view sealed, std::string_view associated,
                                       const SecretBytes& key) {
    require(key.size() == kKeyBytes, "open: key of the wrong length");
    if (sealed.size() < kSealExtra) return std::nullopt;
    SecretBytes text(sealed.size() - kSealExtra);
    if (!open_at(text.data(), sealed, associated, key)) return std::nullopt;
    return text;
}

bool open_into(Bytes& text, std::string_view sealed, std::string_view associated, const SecretBytes& key) {
    require(key.size() == kKeyBytes, "open: key of the wrong length");
    if (sealed.size() < kSealExtra) return false;
    text.resize(sealed.size() - kSealExtra);
    return open_at(raw(text), sealed, associated, key);
}

std::optional<Bytes> open(std::string_view sealed, std::string_view associated, const SecretBytes& key) {
    Bytes text;
    if (!open_into(text, sealed, associated, key)) return std::nullopt;
    return text;
}

std::optional<SecretBytes> passphrase_key(std::string_view passphrase, std::string_view salt, Kdf kdf,
                                          std::size_t length) {
    require(salt.size() == crypto_pwhash_SALTBYTES, "passphrase_key: salt of the wrong length");
    SecretBytes key(length);
    if (crypto_pwhash(key.data(), key.size(), passphrase.data(), passphrase.size(), raw(salt), kdf.passes,
                      kdf.memory, crypto_pwhash_ALG_ARGON2ID13) != 0)
        return std::nullopt;
    return key;
}

SecretBytes subkey(const SecretBytes& key, std::uint64_t purpose) {
    require(key.size() == crypto_kdf_KEYBYTES, "subkey: key of the wrong length");
    SecretBytes derived(kKeyBytes);
    crypto_kdf_derive_from_key(derived.data(), derived.size(), purpose, "evenfall", key.data());
    return derived;
}

Bytes signing_public(const SecretBytes& seed) {
    require(seed.size() == crypto_sign_SEEDBYTES, "signing seed of the wrong length");
    Bytes public_key(crypto_sign_PUBLICKEYBYTES, '\0');
    SecretBytes secret(crypto_sign_SECRETKEYBYTES);
    crypto_sign_seed_keypair(raw(public_key), secret.data(), seed.data());
    return public_key;
}

SecretBytes signing_secret(const SecretBytes& seed) {
    require(seed.size() == crypto_sign_SEEDBYTES, "signing seed of the wrong length");
    Bytes public_key(crypto_sign_PUBLICKEYBYTES, '\0');
    SecretBytes secret(crypto_sign_SECRETKEYBYTES);
    crypto_sign_seed_keypair(raw(public_key), secret.data(), seed.data());
    return secret;
}

Bytes sign(std::string_view message, const SecretBytes& secret) {
    require(secret.size() == crypto_sign_SECRETKEYBYTES, "sign: key of the wrong length");
    Bytes signature(crypto_sign_BYTES, '\0');
    crypto_sign_detached(raw(signature), nullptr, raw(message), message.size(), secret.data());
    return signature;
}

bool verify(std::string_view message, std::string_view signature, std::string_view public_key) {
    return signature.size() == crypto_sign_BYTES && public_key.size() == crypto_sign_PUBLICKEYBYTES &&
           crypto_sign_verify_detached(raw(signature), raw(message), message.size(), raw(public_key)) == 0;
}

Bytes box_public(const SecretBytes& seed) {
    require(seed.size() == crypto_box_SEEDBYTES, "box seed of the wrong length");
    Bytes public_key(crypto_box_PUBLICKEYBYTES, '\0');
    SecretBytes secret(crypto_box_SECRETKEYBYTES);
    crypto_box_seed_keypair(raw(public_key), secret.data(), seed.data());
    return public_key;
}

std::optional<Bytes> box_seal(const SecretBytes& key, std::string_view public_key) {
    if (public_key.size() != crypto_box_PUBLICKEYBYTES) return std::nullopt;
    Bytes sealed(key.size() + crypto_box_SEALBYTES, '\0');
    if (crypto_box_seal(raw(sealed), key.data(), key.size(), raw(public_key)) != 0) return std::nullopt;
    return sealed;
}

std::optional<SecretBytes> box_open(std::string_view sealed, const SecretBytes& seed) {
    if (sealed.size() <= crypto_box_SEALBYTES) return std::nullopt;
    Bytes public_key(crypto_box_PUBLICKEYBYTES, '\0');
    SecretBytes secret(crypto_box_SECRETKEYBYTES);
    crypto_box_seed_keypair(raw(public_key), secret.data(), seed.data());
    SecretBytes key(sealed.size() - crypto_box_SEALBYTES);
    if (crypto_box_seal_open(key.data(), raw(sealed), sealed.size(), raw(public_key), secret.data()) != 0)
        return std::nullopt;
    return key;
}

}  // namespace evenfall::crypto
