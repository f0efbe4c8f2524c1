// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "units/result.h"

namespace evenfall {

/// The sentences of one language: every file of `resources/texts/<language>/`, each a flat object of id to
/// sentence with {names} in braces. An id stands in one file only.
class Texts {
  public:
    static Result<Texts> load(const std::filesystem::path& resources, std::string_view language);

    const std::string& language() const { return language_; }
    bool has(std::string_view id) const;
    /// The sentence with its braces filled. A missing id reads "[id]" and a missing value "{name}", so that a
    /// gap is seen; a test walks all ids of all languages.
    std::string text(std::string_view id, const Args& args = {}) const;
    std::string text(const Message& message) const { return text(message.id, message.args); }
    /// "place: what was wrong, what was expected".
    std::string text(const Fault& fault) const;

    const std::map<std::string, std::string, std::less<>>& all() const { return sentences_; }

  private:
    std::string language_;
    std::map<std::string, std::string, std::less<>> sentences_;
};

/// The languages that there are texts in, by their folders ("en", "es"): English first, the others in order.
/// A language is added by adding its folder; no list of them stands anywhere else.
std::vector<std::string> languages(const std::filesystem::path& resources);

/// Fills the names in braces of a sentence.
std::string fill(std::string_view sentence, const Args& args);

/// The folder of resources: $EVENFALL_RESOURCES, else share/evenfall beside the program's bin folder, else
/// the source tree's.
std::filesystem::path resources_folder();

}  // namespace evenfall
