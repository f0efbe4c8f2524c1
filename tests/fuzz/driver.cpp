// SPDX-License-Identifier: GPL-3.0-or-later
// Drives a fuzz target where libFuzzer is not at hand: every file of the corpus as it is, then `-runs` of
// them changed at random by `-seed`. Every run is the same on every machine. What was tried last is written
// to "crash-<target>" if the program dies of it.

#include <algorithm>
#include <csignal>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

#if defined(__SANITIZE_ADDRESS__)
#include <sanitizer/common_interface_defs.h>
#endif

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostBytes = std::size_t{1} << 20;

std::string g_tried;    // what the target was given last
std::string g_program;  // its name

void keep_what_was_tried() {
    std::ofstream("crash-" + g_program, std::ios::binary) << g_tried;
}

void try_input(std::string input) {
    g_tried = std::move(input);
    LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(g_tried.data()), g_tried.size());
}

std::vector<std::string> read_corpus(const std::vector<fs::path>& folders) {
    std::vector<fs::path> files;
    for (const fs::path& folder : folders)
        for (const auto& each : fs::directory_iterator(folder)) files.push_back(each.path());
    std::ranges::sort(files);  // a folder's own order differs from disk to disk
    std::vector<std::string> corpus;
    for (const fs::path& file : files) {
        std::ifstream stream(file, std::ios::binary);
        corpus.emplace_back(std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>());
    }
    return corpus;
}

/// Changes texts in the ways that parsers stumble over.
class Mutation {
  public:
    Mutation(const std::vector<std::string>& corpus, std::uint64_t seed) : corpus_(corpus), random_(seed) {}

    std::string next() {
        std::string text = pick(corpus_);
        for (std::size_t left = 1 + below(6); left > 0; --left) change(text);
        if (text.size() > kMostBytes) text.resize(kMostBytes);
        return text;
    }

  private:
    std::size_t below(std::size_t limit) {
        return static_cast<std::size_t>(random_() % std::max<std::size_t>(limit, 1));
    }
    template <class T>
    const T& pick(const std::vector<T>& from) {
        return from[below(from.size())];
    }

    void change(std::string& text) {
        static const std::vector<std::string> tokens{"{",
                                                     "}",
                                                     "[",
                                                     "]",
                                                     "[[[[[[[[",
                                                     "\"",
                                                     ",",
                                                     ":",
                                                     "null",
                                                     "true",
                                                     "-",
                                                     "0",
                                                     "1e999",
                                                     "-1",
                                                     "0.0000001",
                                                     "9223372036854775808",
                                                     "99999999999999999999",
                                                     "\\u0000",
                                                     "\\ud800",
                                                     "\xff\xfe",
                                                     "\xe2\x80\xae",
                                                     "=1+1",
                                                     "\r\n",
                                                     ";",
                                                     "2027-02-30",
                                                     "24:00",
                                                     "1,5",
                                                     "../../etc/passwd",
                                                     "'; DROP TABLE events; --",
                                                     "<script>",
                                                     "%n%s",
                                                     std::string(1, '\0'),
                                                     std::string(300, 'A'),
                                                     std::string(2000, '[')};
        const std::size_t at = below(text.size() + 1);
        const std::size_t count = 1 + below(std::min<std::size_t>(64, text.size() + 1 - at));
        switch (below(7)) {
            case 0:
                if (at < text.size()) text[at] = static_cast<char>(text[at] ^ (1 << below(8)));
                break;
            case 1:
                if (at < text.size()) text[at] = static_cast<char>(below(256));
                break;
            case 2:
                text.erase(at, count);
                break;
            case 3:
                text.insert(at, text.substr(std::min(at, text.size()), count));
                break;
            case 4:
                text.insert(at, pick(tokens));
                break;
            case 5:
                text.replace(std::min(at, text.size()), count, pick(tokens));
                break;
            default: {
                const std::string& other = pick(corpus_);
                const std::size_t from = below(other.size() + 1);
                text = text.substr(0, at) + other.substr(from);
            }
        }
    }

    const std::vector<std::string>& corpus_;
    std::mt19937_64 random_;
};

long long value_of(const std::string& word) {
    return std::atoll(word.substr(word.find('=') + 1).c_str());
}

}  // namespace

int main(int count, char** words) {
    g_program = fs::path(words[0]).filename().string();
    long long runs = 0;
    std::uint64_t seed = 1;
    std::vector<fs::path> folders;
    for (int i = 1; i < count; ++i) {
        const std::string word = words[i];
        if (word.starts_with("-runs="))
            runs = value_of(word);
        else if (word.starts_with("-seed="))
            seed = static_cast<std::uint64_t>(value_of(word));
        else
            folders.emplace_back(word);
    }
    std::signal(SIGABRT, [](int) { keep_what_was_tried(); });  // a promise that was broken
#if defined(__SANITIZE_ADDRESS__)
    __sanitizer_set_death_callback(keep_what_was_tried);
#endif
    const std::vector<std::string> corpus = read_corpus(folders);
    if (corpus.empty()) {
        std::cerr << g_program << ": the corpus is empty\n";
        return 2;
    }
    for (const std::string& each : corpus) try_input(each);
    Mutation mutation(corpus, seed);
    for (long long run = 0; run < runs; ++run) try_input(mutation.next());
    std::cout << g_program << ": " << corpus.size() << " as they are, " << runs << " changed\n";
    return 0;
}
