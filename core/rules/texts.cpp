// SPDX-License-Identifier: GPL-3.0-or-later
#include "rules/texts.h"

#include <algorithm>
#include <cstdlib>
#include <vector>

#include <nlohmann/json.hpp>

#include "model/strict_json.h"

namespace evenfall {
namespace {

Fault fault(std::string id, const std::filesystem::path& file, std::string text) {
    return {std::move(id), file.filename().string(), {{"text", std::move(text)}}};
}

}  // namespace

std::string fill(std::string_view sentence, const Args& args) {
    std::string filled;
    filled.reserve(sentence.size() + 32);
    for (std::size_t at = 0; at < sentence.size();) {
        const std::size_t close = sentence[at] == '{' ? sentence.find('}', at) : std::string_view::npos;
        if (close != std::string_view::npos) {
            const auto value = args.find(std::string(sentence.substr(at + 1, close - at - 1)));
            if (value != args.end()) {
                filled += value->second;
                at = close + 1;
                continue;
            }
        }
        filled += sentence[at++];
    }
    return filled;
}

Result<Texts> Texts::load(const std::filesystem::path& resources, std::string_view language) {
    Texts texts;
    texts.language_ = language;
    Faults faults;
    const auto folder = resources / "texts" / std::string(language);
    std::error_code error;
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder, error))
        if (entry.path().extension() == ".json") files.push_back(entry.path());
    if (files.empty()) return Fault{"texts-missing", folder.string(), {{"language", std::string(language)}}};
    std::sort(files.begin(), files.end());
    for (const auto& file : files) {
        nlohmann::json parsed;
        if (!take(load_strict_json(file), parsed, faults)) continue;
        if (!parsed.is_object()) {
            faults.push_back(fault("texts-not-json", file, ""));
            continue;
        }
        for (const auto& [id, sentence] : parsed.items()) {
            if (!sentence.is_string())
                faults.push_back(fault("texts-not-a-sentence", file, id));
            else if (!texts.sentences_.emplace(id, sentence.get<std::string>()).second)
                faults.push_back(fault("texts-twice", file, id));
        }
    }
    if (!faults.empty()) return faults;
    return texts;
}

std::vector<std::string> languages(const std::filesystem::path& resources) {
    std::vector<std::string> found;
    std::error_code error;
    for (const auto& entry : std::filesystem::directory_iterator(resources / "texts", error))
        if (entry.is_directory(error)) found.push_back(entry.path().filename().string());
    std::sort(found.begin(), found.end(), [](const std::string& a, const std::string& b) {
        return std::pair(a != "en", a) < std::pair(b != "en", b);
    });
    return found;
}

bool Texts::has(std::string_view id) const {
    return sentences_.find(id) != sentences_.end();
}

std::string Texts::text(std::string_view id, const Args& args) const {
    const auto found = sentences_.find(id);
    if (found == sentences_.end()) return "[" + std::string(id) + "]";
    return fill(found->second, args);
}

std::string Texts::text(const Fault& fault) const {
    const std::string what = text(fault.id, fault.args);
    return fault.place.empty() ? what : fault.place + ": " + what;
}

std::filesystem::path resources_folder() {
    if (const char* named = std::getenv("EVENFALL_RESOURCES"); named && *named) return named;
    std::error_code error;
    const auto program = std::filesystem::read_symlink("/proc/self/exe", error);
    if (!error) {
        auto installed = program.parent_path().parent_path() / "share" / "evenfall" / "resources";
        if (std::filesystem::is_directory(installed, error)) return installed;
    }
    return EVENFALL_RESOURCES;
}

}  // namespace evenfall
