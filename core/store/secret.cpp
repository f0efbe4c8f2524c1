// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/secret.h"

#include <cstring>
#include <new>
#include <utility>

#include <sodium.h>

namespace evenfall {

SecretBytes::SecretBytes(std::size_t size) : size_(size) {
    data_ = static_cast<unsigned char*>(sodium_malloc(size));
    if (data_ == nullptr) throw std::bad_alloc();
    sodium_memzero(data_, size);
}

SecretBytes SecretBytes::from(std::string_view bytes) {
    SecretBytes made(bytes.size());
    if (!bytes.empty()) std::memcpy(made.data_, bytes.data(), bytes.size());
    return made;
}

SecretBytes::SecretBytes(SecretBytes&& other) noexcept
    : data_(std::exchange(other.data_, nullptr)), size_(std::exchange(other.size_, 0)) {
}

SecretBytes& SecretBytes::operator=(SecretBytes&& other) noexcept {
    std::swap(data_, other.data_);
    std::swap(size_, other.size_);
    return *this;
}

SecretBytes::~SecretBytes() {
    sodium_free(data_);
}

}  // namespace evenfall
