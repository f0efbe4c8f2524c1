// SPDX-License-Identifier: GPL-3.0-or-later
#include <random>
#include <regex>

#include <gtest/gtest.h>

#include "papers/sample.h"
#include "papers/schedule_parts.h"
#include "papers/wording.h"
#include "units/dose_text.h"

// Every dose of every day of a schedule, read back from its words.

namespace evenfall::papers {
namespace {

std::string without_commas(std::string text) {
    std::erase(text, ',');
    return text;
}

Dose read_mg(const std::string& digits) {
    return parse_mg(without_commas(digits), "paper").value();
}

/// The amount that the English words for pieces add up to, read without knowing the pieces.
Dose amount_in_words(const std::string& words) {
    static const std::regex liquid(R"(([\d.,]+) mL from the bottle marked ([\d.,]+) mg per mL)");
    static const std::regex solid(
        R"(((?:\d+ [a-z -]+?|half|quarter)(?: \+ (?:half|quarter))*) of (?:a )?([\d.,]+) mg)");
    static const std::regex part(R"((\d+) [a-z]|(half)|(quarter))");
    Dose sum;
    std::smatch found;
    for (std::sregex_iterator it(words.begin(), words.end(), liquid), end; it != end; ++it)
        sum += amount_in(parse_ml(without_commas((*it)[1]), "paper").value(), read_mg((*it)[2])).value();
    for (std::sregex_iterator it(words.begin(), words.end(), solid), end; it != end; ++it) {
        const std::string pieces = (*it)[1];
        const Dose strength = read_mg((*it)[2]);
        for (std::sregex_iterator p(pieces.begin(), pieces.end(), part); p != end; ++p) {
            if ((*p)[1].matched) sum += strength * std::stoi((*p)[1]);
            if ((*p)[2].matched) sum += strength.part(2).value();
            if ((*p)[3].matched) sum += strength.part(4).value();
        }
    }
    return sum;
}

/// What the words say after the equals sign.
std::optional<Dose> sum_in_words(const std::string& words) {
    std::smatch found;
    if (!std::regex_search(words, found, std::regex(R"(= ([\d.,]+) mg$)"))) return std::nullopt;
    return read_mg(found[1]);
}

/// Reads "4 Jan 2027", or "4 January 2027", where a text ends with it.
Day read_date(const std::string& text) {
    static const std::string kMonths = "JanFebMarAprMayJunJulAugSepOctNovDec";
    std::smatch found;
    if (!std::regex_search(text, found, std::regex(R"((\d+) ([A-Z][a-z]{2})[a-z]* (\d{4})$)")))
        throw std::logic_error(text);
    return day_at(std::stoi(found[3]), static_cast<unsigned>(kMonths.find(found[2]) / 3 + 1),
                  static_cast<unsigned>(std::stoi(found[1])));
}

/// What the plan asks for on a day at a time.
std::optional<Dose> planned(const Plan& plan, Day day, const std::string& clock) {
    for (const Step& step : plan.steps) {
        if (step.status != StepStatus::committed || day < step.starts) continue;
        if (!step.days || day >= step.starts + std::chrono::days(*step.days)) continue;
        for (const PlannedDose& dose : step.doses)
            if (print_clock(dose.at) == clock) return dose.amount;
    }
    return std::nullopt;
}

/// The day of "Mon 4 Jan": the first one of that date from the day on with which its step begins. Its weekday
/// must be right.
Day day_of_row(const Group& group, const Row& row) {
    const std::string& text = row.at(0).strong.at(0);
    const Day from = read_date(group.band.at(0));
    const int year = static_cast<int>(calendar(from).year());
    Day day = read_date(text + " " + std::to_string(year));
    if (day < from) day = read_date(text + " " + std::to_string(year + 1));
    EXPECT_EQ(Wording(shipped_texts("en"), {}).weekday(day) + " ", text.substr(0, 4)) << text;
    return day;
}

/// What a short cell says: "1.375 mg", or "0.45 mL = 0.9 mg" where it is measured.
std::optional<Dose> short_amount(const std::string& words) {
    std::smatch found;
    if (!std::regex_match(words, found, std::regex(R"((?:[\d.,]+ mL = )?([\d.,]+) mg)"))) return std::nullopt;
    return read_mg(found[1]);
}

void check_cell(const Group& group, const Row& row, std::size_t column, const std::optional<Dose>& plan) {
    const std::string words = words_of(row[column]);
    EXPECT_EQ(row[column].tick_box, plan.has_value());
    if (!plan) {
        EXPECT_EQ(sum_in_words(words), std::nullopt) << words;
        EXPECT_EQ(short_amount(words), std::nullopt) << words;
        return;
    }
    EXPECT_EQ(amount_of(row[column].doses.at(0).pieces), *plan) << words;
    const std::string told = group.lead.empty() ? words : words_of(group.lead[column]);
    EXPECT_EQ(sum_in_words(told), plan) << told;
    EXPECT_EQ(amount_in_words(told), *plan) << told;
    if (group.lead.empty()) return;
    EXPECT_EQ(sum_in_words(words) ? sum_in_words(words) : short_amount(words), plan) << words;
    EXPECT_EQ(row[column].doses.at(0).pieces, group.lead[column].doses.at(0).pieces);
}

int check_day_rows(const PaperSource& source) {
    const Document document = schedule_of(source);
    const Table& table = day_table_of(document);
    int rows = 0;
    for (const Group& group : table.groups)
        for (const Row& row : group.rows) {
            ++rows;
            const Day day = day_of_row(group, row);
            for (std::size_t column = 1; column < table.columns.size(); ++column)
                if (!table.columns[column].note.empty())
                    check_cell(group, row, column, planned(*source.plan, day, table.columns[column].note));
        }
    return rows;
}

TEST(Schedule, EveryDoseOfEveryDayIsThePlansInWordsPiecesAndSum) {
    EXPECT_EQ(check_day_rows(two_steps()), 28);
    std::mt19937_64 random(3);
    for (int i = 0; i < 60 && !::testing::Test::HasFailure(); ++i)
        EXPECT_GT(check_day_rows(random_source(random)), 0);
}

}  // namespace
}  // namespace evenfall::papers
