// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "papers/document.h"

namespace evenfall::papers {

/// Counts of a text from which reading formulas are computed.
struct ReadingCounts {
    int sentences = 0;
    int words = 0;
    int syllables = 0;
};

/// Syllables of an English word by rule: groups of vowels, without a silent final e, -es or -ed. Its error
/// against the dictionary words of the tests is stated there.
int english_syllables(const std::string& word);
/// Syllables of a Spanish word: vowel groups, where two strong vowels or a stressed weak one begin a new
/// syllable.
int spanish_syllables(const std::string& word);

/// Sentences end at . ! ? or with the string; words are runs of letters (numbers and units are left out).
ReadingCounts count_reading(const std::vector<std::string>& texts, int (*syllables)(const std::string&));

/// What a person reads on a paper as prose: its sentences, without titles, labels and cells (which are
/// shorter and would flatter the grade).
std::vector<std::string> prose_of(const Document& document);

/// 0.39 words/sentences + 11.8 syllables/words - 15.59 (Flesch–Kincaid grade, as readabilityformulas.com
/// prints it).
double flesch_kincaid_grade(const ReadingCounts& counts);
/// 206.835 - 1.015 words/sentences - 84.6 syllables/words (Flesch reading ease).
double flesch_ease(const ReadingCounts& counts);
/// 206.84 - 60 syllables/words - 1.02 words/sentences (Fernández Huerta 1959, in the corrected form; from
/// memory).
double fernandez_huerta(const ReadingCounts& counts);
/// 206.835 - 62.3 syllables/words - words/sentences (Szigriszt-Pazos 1993, the INFLESZ scale; from memory).
double inflesz(const ReadingCounts& counts);

}  // namespace evenfall::papers
