// SPDX-License-Identifier: GPL-3.0-or-later
#include "model/strict_json.h"

#include <fstream>
#include <set>
#include <string>
#include <vector>

namespace evenfall {
namespace {

using nlohmann::json;

Fault too_large(std::string_view place, std::size_t most_bytes) {
    return {"json-too-large", std::string(place), {{"most", std::to_string(most_bytes >> 20)}}};
}

/// `position` counts from 1, as the parser's does.
Fault broken(std::string_view text, std::size_t position, std::string_view file_name) {
    std::size_t line = 1;
    std::size_t column = 1;
    for (std::size_t at = 0; at + 1 < position && at < text.size(); ++at) {
        ++column;
        if (text[at] == '\n') {
            ++line;
            column = 1;
        }
    }
    return {"json-broken",
            std::string(file_name),
            {{"line", std::to_string(line)}, {"column", std::to_string(column)}}};
}

/// Walks a text without building anything: depth, keys given twice, syntax. Returning false stops the parser.
class Inspector : public nlohmann::json_sax<json> {
  public:
    Inspector(std::string_view text, std::string_view file_name, int most_depth)
        : text_(text), file_name_(file_name), most_depth_(most_depth) {}

    Faults faults;

    bool null() override { return value(); }
    bool boolean(bool) override { return value(); }
    bool number_integer(number_integer_t) override { return value(); }
    bool number_unsigned(number_unsigned_t) override { return value(); }
    bool number_float(number_float_t, const string_t&) override { return value(); }
    bool string(string_t&) override { return value(); }
    bool binary(binary_t&) override { return value(); }
    bool start_object(std::size_t) override { return open(false); }
    bool start_array(std::size_t) override { return open(true); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }
    bool key(string_t& name) override {
        Level& level = levels_.back();
        level.key = name;
        if (!level.keys.insert(name).second) faults.push_back({"json-key-twice", path(), {{"key", name}}});
        return true;
    }
    bool parse_error(std::size_t position, const std::string&, const json::exception&) override {
        faults.push_back(broken(text_, position, file_name_));
        return false;
    }

  private:
    struct Level {
        bool list = false;
        std::size_t count = 0;
        std::string key;
        std::set<std::string> keys;
    };

    bool value() {
        if (!levels_.empty()) ++levels_.back().count;
        return true;
    }
    bool open(bool list) {
        if (static_cast<int>(levels_.size()) >= most_depth_) {
            faults.push_back({"json-too-deep", file_name_, {{"most", std::to_string(most_depth_)}}});
            return false;
        }
        levels_.push_back({list, 0, {}, {}});
        return true;
    }
    bool close() {
        levels_.pop_back();
        return value();
    }
    std::string path() const {
        std::string path = file_name_;
        for (const Level& level : levels_)
            path += level.list ? "[" + std::to_string(level.count) + "]" : "." + level.key;
        return path;
    }

    std::string_view text_;
    std::string file_name_;
    int most_depth_;
    std::vector<Level> levels_;
};

}  // namespace

Result<json> parse_strict_json(std::string_view text, std::string_view file_name, const JsonLimits& limits) {
    if (text.size() > limits.bytes) return too_large(file_name, limits.bytes);
    // The parser takes a NUL for the end of the text and would pass over whatever follows it.
    if (const auto nul = text.find('\0'); nul != std::string_view::npos)
        return broken(text, nul + 1, file_name);
    Inspector inspector(text, file_name, limits.depth);
    const bool sound = json::sax_parse(text.begin(), text.end(), &inspector);
    if (!inspector.faults.empty()) return inspector.faults;
    json parsed =
        sound ? json::parse(text.begin(), text.end(), nullptr, false) : json(json::value_t::discarded);
    if (parsed.is_discarded()) return broken(text, 1, file_name);
    return parsed;
}

Result<std::string> read_text_file(const std::filesystem::path& file, std::size_t most_bytes) {
    const std::string name = file.filename().string();
    std::error_code error;
    std::ifstream stream(file, std::ios::binary);
    if (!stream || std::filesystem::is_directory(file, error))
        return Fault{"file-unreadable", name, {{"file", file.string()}}};
    std::string text;
    // Read in pieces: a pipe or a device has no size to ask for, and one that never ends must not fill the
    // memory.
    std::vector<char> piece(std::size_t{1} << 16);
    while (stream) {
        stream.read(piece.data(), static_cast<std::streamsize>(piece.size()));
        text.append(piece.data(), static_cast<std::size_t>(stream.gcount()));
        if (text.size() > most_bytes) return too_large(name, most_bytes);
    }
    if (stream.bad()) return Fault{"file-unreadable", name, {{"file", file.string()}}};
    return text;
}

Result<json> load_strict_json(const std::filesystem::path& file, const JsonLimits& limits) {
    const auto text = read_text_file(file, limits.bytes);
    if (!text) return text.faults();
    return parse_strict_json(*text, file.filename().string(), limits);
}

}  // namespace evenfall
