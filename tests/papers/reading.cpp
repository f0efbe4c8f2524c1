// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/reading.h"

#include <algorithm>
#include <cctype>

namespace evenfall::papers {
namespace {

bool is_vowel(char c) {
    return std::string("aeiouy").find(c) != std::string::npos;
}

/// Whether the vowel at `i` begins a syllable although a vowel stands before it: di-az-epam, me-di-um,
/// su-i-cide, ly-ing; but not na-tion, sea-son, quick, peo-ple.
bool spoken_apart(const std::string& w, std::size_t i) {
    if (i == 0) return false;
    const std::string pair = w.substr(i - 1, 2);
    const char before = i > 1 ? w[i - 2] : ' ';
    if (pair == "ia" || pair == "io" || pair == "iu")
        return std::string("tscg").find(before) == std::string::npos;
    if (pair == "ui") return before != 'q' && before != 'g' && before != 'b';
    return pair == "yi" || (pair == "eo" && w.compare(i - 1, 3, "eop") != 0);
}

/// Spanish letters as single characters: accented weak vowels in upper case, other accents dropped.
std::string spanish_letters(const std::string& word) {
    static const std::vector<std::pair<std::string, std::string>> kLetters = {
        {"á", "a"}, {"é", "e"}, {"ó", "o"}, {"í", "I"}, {"ú", "U"}, {"ü", "u"}, {"ñ", "n"},
        {"Á", "a"}, {"É", "e"}, {"Ó", "o"}, {"Í", "I"}, {"Ú", "U"}, {"Ñ", "n"}};
    std::string plain;
    for (std::size_t at = 0; at < word.size();) {
        const auto found = std::find_if(kLetters.begin(), kLetters.end(), [&](const auto& letter) {
            return word.compare(at, letter.first.size(), letter.first) == 0;
        });
        if (found == kLetters.end()) {
            plain += static_cast<char>(std::tolower(static_cast<unsigned char>(word[at++])));
        } else {
            plain += found->second;
            at += found->first.size();
        }
    }
    return plain;
}

bool is_letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0 || (static_cast<unsigned char>(c) & 0x80) != 0;
}

}  // namespace

int english_syllables(const std::string& word) {
    std::string w;
    for (const char c : word)
        if (c != '\'') w += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    int count = 0;
    for (std::size_t i = 0; i < w.size(); ++i) {
        if (!is_vowel(w[i])) continue;
        const bool begins = i == 0 || !is_vowel(w[i - 1]);
        if (begins || spoken_apart(w, i)) ++count;
    }
    const auto ends = [&](const std::string& tail) {
        return w.size() > tail.size() && w.compare(w.size() - tail.size(), tail.size(), tail) == 0;
    };
    const auto before = [&](std::size_t back) { return w.size() > back ? w[w.size() - 1 - back] : ' '; };
    if (ends("e") && !is_vowel(before(1)) && !(before(1) == 'l' && !is_vowel(before(2)))) --count;
    if (ends("ed") && !is_vowel(before(2)) && before(2) != 't' && before(2) != 'd') --count;
    if (ends("es") && !is_vowel(before(2)) && std::string("szxc").find(before(2)) == std::string::npos &&
        !ends("shes") && !ends("ches") && !ends("ges"))
        --count;
    return std::max(1, count);
}

int spanish_syllables(const std::string& word) {
    const std::string w = spanish_letters(word);
    const auto strong = [](char c) { return c == 'a' || c == 'e' || c == 'o' || c == 'I' || c == 'U'; };
    int count = 0;
    bool open = false;        // inside a group of vowels
    bool has_strong = false;  // which already holds a strong one
    for (std::size_t i = 0; i < w.size(); ++i) {
        char c = w[i];
        if (c == 'y' && i + 1 == w.size()) c = 'i';
        const bool silent = c == 'u' && i > 0 && (w[i - 1] == 'q' || w[i - 1] == 'g') && i + 1 < w.size() &&
                            (w[i + 1] == 'e' || w[i + 1] == 'i' || w[i + 1] == 'I');
        if (silent) continue;
        if (!strong(c) && c != 'i' && c != 'u') {
            open = false;
            continue;
        }
        if (!open || (strong(c) && has_strong)) {
            ++count;
            has_strong = false;
        }
        open = true;
        has_strong = has_strong || strong(c);
    }
    return std::max(1, count);
}

ReadingCounts count_reading(const std::vector<std::string>& texts, int (*syllables)(const std::string&)) {
    ReadingCounts counts;
    for (const std::string& text : texts) {
        std::string word;
        int in_sentence = 0;
        const auto end_word = [&] {
            if (!word.empty()) {
                ++counts.words;
                ++in_sentence;
                counts.syllables += syllables(word);
            }
            word.clear();
        };
        const auto end_sentence = [&] {
            end_word();
            if (in_sentence > 0) ++counts.sentences;
            in_sentence = 0;
        };
        for (std::size_t at = 0; at < text.size(); ++at) {
            const char c = text[at];
            const bool decimal =
                at + 1 < text.size() && std::isdigit(static_cast<unsigned char>(text[at + 1])) != 0;
            const bool inverted = c == '\xC2' && at + 1 < text.size();  // ¿ ¡ · are no letters
            if (inverted) {
                end_word();
                ++at;
            } else if (is_letter(c) || (c == '\'' && !word.empty())) {
                word += c;
            } else if (c == '!' || c == '?' || (c == '.' && !decimal)) {
                end_sentence();
            } else {
                end_word();
            }
        }
        end_sentence();
    }
    return counts;
}

std::vector<std::string> prose_of(const Document& document) {
    std::vector<std::string> prose;
    for_each_text(document, [&](Role role, const std::string& text) {
        if (role == Role::sentence) prose.push_back(text);
    });
    return prose;
}

double flesch_kincaid_grade(const ReadingCounts& counts) {
    return 0.39 * counts.words / counts.sentences + 11.8 * counts.syllables / counts.words - 15.59;
}

double flesch_ease(const ReadingCounts& counts) {
    return 206.835 - 1.015 * counts.words / counts.sentences - 84.6 * counts.syllables / counts.words;
}

double fernandez_huerta(const ReadingCounts& counts) {
    return 206.84 - 60.0 * counts.syllables / counts.words - 1.02 * counts.words / counts.sentences;
}

double inflesz(const ReadingCounts& counts) {
    return 206.835 - 62.3 * counts.syllables / counts.words - 1.0 * counts.words / counts.sentences;
}

}  // namespace evenfall::papers
