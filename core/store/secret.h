// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string_view>

namespace evenfall {

/// Key material: memory that is locked against swapping, guarded on both sides, left out of core dumps and
/// wiped when it is let go (sodium_malloc, sodium_free). Moves; copies only through `copy()`, so that each
/// copy is seen.
class SecretBytes {
  public:
    SecretBytes() = default;
    /// Zeroed bytes. Throws std::bad_alloc where memory cannot be had.
    explicit SecretBytes(std::size_t size);
    static SecretBytes from(std::string_view bytes);
    SecretBytes(SecretBytes&& other) noexcept;
    SecretBytes& operator=(SecretBytes&& other) noexcept;
    SecretBytes(const SecretBytes&) = delete;
    SecretBytes& operator=(const SecretBytes&) = delete;
    ~SecretBytes();

    SecretBytes copy() const { return from(view()); }
    /// A copy of `count` bytes from `offset`. REQUIRES that they exist.
    SecretBytes part(std::size_t offset, std::size_t count) const {
        return from(view().substr(offset, count));
    }

    unsigned char* data() { return data_; }
    const unsigned char* data() const { return data_; }
    std::size_t size() const { return size_; }
    bool empty() const { return size_ == 0; }
    std::string_view view() const { return {reinterpret_cast<const char*>(data_), size_}; }

  private:
    unsigned char* data_ = nullptr;
    std::size_t size_ = 0;
};

}  // namespace evenfall
