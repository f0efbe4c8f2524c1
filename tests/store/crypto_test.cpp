// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/crypto.h"

#include <gtest/gtest.h>

namespace evenfall::crypto {

namespace {

Bytes bytes(std::string_view hex) {
    return from_hex(hex).value();
}

SecretBytes secret(std::string_view hex) {
    return SecretBytes::from(bytes(hex));
}

class Crypto : public testing::Test {
  protected:
    Crypto() { ready(); }
};

struct SignatureVector {
    const char* seed;
    const char* public_key;
    const char* message;
    const char* signature;
};

}  // namespace

// RFC 8032, section 7.1, tests 1 to 3.
TEST_F(Crypto, SignsAsThePublishedEd25519VectorsDo) {
    const SignatureVector vectors[] = {
        {"9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
         "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
         "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25"
         "bf5f059"
         "5bbe24655141438e7a100b"},
        {"4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
         "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "72",
         "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387"
         "b2eaeb4"
         "302aeeb00d291612bb0c00"},
        {"c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
         "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025", "af82",
         "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7"
         "c15e971"
         "6ed28dc027beceea1ec40a"}};
    for (const SignatureVector& each : vectors) {
        const SecretBytes seed = secret(each.seed);
        EXPECT_EQ(to_hex(signing_public(seed)), each.public_key);
        EXPECT_EQ(to_hex(sign(bytes(each.message), signing_secret(seed))), each.signature);
        EXPECT_TRUE(verify(bytes(each.message), bytes(each.signature), bytes(each.public_key)));
        EXPECT_FALSE(verify(bytes(each.message) + "x", bytes(each.signature), bytes(each.public_key)));
    }
}

// draft-irtf-cfrg-xchacha-03, appendix A.3.1.
TEST_F(Crypto, SealsAsThePublishedXChaCha20Poly1305VectorDoes) {
    const std::string text =
        "Ladies and Gentlemen of the class of '99: If I could offer you only one tip for the "
        "future, sunscreen would be it.";
    const SecretBytes key = secret("808182838485868788898a8b8c8d8e8f909192939495969798999a9b9c9d9e9f");
    const Bytes nonce = bytes("404142434445464748494a4b4c4d4e4f5051525354555657");
    const Bytes associated = bytes("50515253c0c1c2c3c4c5c6c7");
    const Bytes sealed = seal_with_nonce(text, associated, nonce, key);
    EXPECT_EQ(to_hex(sealed.substr(kNonceBytes)),
              "bd6d179d3e83d43b9576579493c0e939572a1700252bfaccbed2902c21396cbb731c7f1b0b4aa6440bf3a82f4eda7e"
              "39ae64c67"
              "08c54c216cb96b72e1213b4522f8c9ba40db5d945b11b69b982c1bb9e3f3fac2bc369488f76b2383565d3fff921f96"
              "64c97637d"
              "a9768812f615c68b13b52ec0875924c1c7987947deafd8780acf49");
    EXPECT_EQ(open(sealed, associated, key), text);
}

// RFC 7693, appendix A.
TEST_F(Crypto, HashesAsThePublishedBlake2bVectorDoes) {
    EXPECT_EQ(to_hex(hash("abc", 64)),
              "ba80a53f981c4d0d6a2797b69f12f6e94c212f14685ac4b74b12bb6fdbffa2d17d87c5392aab792dc252d5de4533cc"
              "9518d38aa8"
              "dbf1925ab92386edd4009923");
}

// RFC 9106's own vector takes a secret and associated data, which libsodium does not offer, and the reference
// program's "somesalt" is shorter than libsodium's 16 bytes. These values were computed with the reference
// implementation (libargon2 0~20171227, whose "password"/"somesalt" answer 09316115… is the published one).
TEST_F(Crypto, DerivesPassphraseKeysAsTheReferenceImplementationOfArgon2idDoes) {
    EXPECT_EQ(to_hex(passphrase_key("password", "somesaltsomesalt", {2, 65536 << 10})->view()),
              "fc33b78139231d34b71626bd6245c1d72efa190ad605c3d8166a72adcedfa2c2");
    EXPECT_EQ(to_hex(passphrase_key("twelve quiet herons", bytes("000102030405060708090a0b0c0d0e0f"),
                                    {3, 256 << 10})
                         ->view()),
              "476cec036b37406a1bb9e50863321aa69ead510d7604ba4b9c15d2b4ce96b5ed");
}

TEST_F(Crypto, OpensNothingThatWasChangedAnywhere) {
    const SecretBytes key = random_secret(kKeyBytes);
    const Bytes sealed = seal("two tablets", "row 7", key);
    ASSERT_EQ(open(sealed, "row 7", key), "two tablets");
    for (std::size_t i = 0; i < sealed.size(); ++i) {
        Bytes changed = sealed;
        changed[i] = static_cast<char>(changed[i] ^ 1);
        EXPECT_FALSE(open(changed, "row 7", key)) << "byte " << i;
    }
    EXPECT_FALSE(open(sealed, "row 8", key));
    EXPECT_FALSE(open(sealed, "row 7", random_secret(kKeyBytes)));
    EXPECT_FALSE(open(sealed.substr(0, kSealExtra - 1), "row 7", key));
}

TEST_F(Crypto, NeverUsesANonceTwice) {
    const SecretBytes key = random_secret(kKeyBytes);
    EXPECT_NE(seal("a", "", key), seal("a", "", key));
}

TEST_F(Crypto, SealsAKeyForOneHolderOnly) {
    const SecretBytes holder = random_secret(32);
    const SecretBytes key = random_secret(kKeyBytes);
    const Bytes sealed = box_seal(key, box_public(holder)).value();
    const auto opened = box_open(sealed, holder);
    ASSERT_TRUE(opened.has_value());
    EXPECT_EQ(opened->view(), key.view());
    EXPECT_FALSE(box_open(sealed, random_secret(32)).has_value());
    EXPECT_FALSE(box_open("short", holder).has_value());
    EXPECT_FALSE(box_seal(key, "short").has_value());
    EXPECT_FALSE(box_seal(key, Bytes(32, '\0')).has_value())
        << "a key that would give the shared secret away";
}

TEST_F(Crypto, ReadsOnlyWholeHexadecimal) {
    EXPECT_EQ(from_hex("00ff"), Bytes("\0\xff", 2));
    EXPECT_EQ(from_hex(""), Bytes());
    EXPECT_FALSE(from_hex("0").has_value());
    EXPECT_FALSE(from_hex("0g").has_value());
    EXPECT_FALSE(from_hex("00 ").has_value());
}

}  // namespace evenfall::crypto
