// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/diary_import.h"

#include <algorithm>
#include <charconv>
#include <numeric>
#include <set>
#include <tuple>

#include "diary/days.h"
#include "exchange/diary_csv.h"
#include "units/dose_text.h"

namespace evenfall {
namespace {

auto key(const Intake& entry) {
    return std::make_tuple(entry.taken_at, entry.drug, entry.amount);
}
auto key(const Rating& entry) {
    return std::make_tuple(entry.rated_at, entry.item, entry.severity);
}

LocalTime time_of(const Intake& entry) {
    return entry.taken_at;
}
LocalTime time_of(const Rating& entry) {
    return entry.rated_at;
}

constexpr const char* time_column(const Intake&) {
    return "taken_at";
}
constexpr const char* time_column(const Rating&) {
    return "rated_at";
}

/// "diary.csv, row 12, column taken_at" parted again.
std::size_t line_in(const std::string& place) {
    const auto at = place.rfind(", row ");
    std::size_t line = 0;
    if (at != std::string::npos) std::from_chars(place.data() + at + 6, place.data() + place.size(), line);
    return line;
}
std::string column_in(const std::string& place) {
    constexpr std::string_view mark = ", column ";
    const auto at = place.rfind(mark);
    return at == std::string::npos ? std::string() : place.substr(at + mark.size());
}

void add_faulty(DiaryImport& import, std::size_t line, const Faults& faults) {
    ImportRow row{line, ImportStanding::faulty, {}, {}, {}};
    for (const Fault& fault : faults) {
        if (row.column.empty()) row.column = column_in(fault.place);
        row.says.push_back({fault.id, fault.args});
    }
    import.rows.push_back(std::move(row));
    ++import.faulty;
}

/// The file could not be taken apart: each fault is a row of its own.
void add_unreadable(DiaryImport& import, const Faults& faults) {
    for (const Fault& fault : faults) add_faulty(import, line_in(fault.place), {fault});
}

/// Faults that only the record and the clock can tell.
template <class T>
Faults out_of_life(const T& entry, const ImportGround& ground) {
    const std::string place = std::string(", column ") + time_column(entry);
    const LocalTime time = time_of(entry);
    if (time > ground.now) return {{"entry-not-yet", place, {{"now", print_local_time(ground.now)}}}};
    if (ground.born && day_of(time) < *ground.born) return {{"entry-before-birth", place, {}}};
    return {};
}

/// What to look at in a good row, with its column.
void look_at(ImportRow& row, const Intake& entry, const ImportGround& ground) {
    if (pieces_can_make(ground.formulary, entry.drug, entry.amount)) return;
    row.column = "amount_mg";
    row.says.push_back({"amount-no-product", {{"drug", entry.drug}, {"amount", print_dose(entry.amount)}}});
}
void look_at(ImportRow&, const Rating&, const ImportGround&) {
}

/// A row that is earlier than the one before it is taken, and said: files are written in order.
void look_at_order(ImportRow& row, LocalTime time, std::optional<LocalTime>& before, const char* column) {
    if (before && time < *before) {
        row.column = column;
        row.says.push_back({"entry-out-of-order", {{"before", print_local_time(*before)}}});
    }
    before = time;
}

template <class T>
void judge_rows(DiaryImport& import, const std::vector<DiaryRowRead<T>>& rows, const std::vector<T>& there,
                std::vector<T>& to_add, const ImportGround& ground) {
    std::set<decltype(key(std::declval<T>()))> known;
    for (const T& entry : there) known.insert(key(entry));
    std::optional<LocalTime> before;
    for (const auto& row : rows) {
        Faults faults = row.faults.empty() ? out_of_life(row.entry, ground) : row.faults;
        if (!faults.empty()) {
            add_faulty(import, row.line, faults);
            continue;
        }
        const bool fresh = known.insert(key(row.entry)).second;
        ImportRow shown{row.line,
                        fresh ? ImportStanding::added : ImportStanding::duplicate,
                        entry_name(row.entry),
                        {},
                        {}};
        look_at_order(shown, time_of(row.entry), before, time_column(row.entry));
        look_at(shown, row.entry, ground);
        import.rows.push_back(std::move(shown));
        if (fresh)
            to_add.push_back(row.entry);
        else
            ++import.duplicates;
    }
}

bool holds_ratings(std::string_view text) {
    return text.substr(0, text.find_first_of("\r\n")).find("rated_at") != std::string_view::npos;
}

}  // namespace

bool same_entry(const Intake& a, const Intake& b) {
    return key(a) == key(b);
}

bool same_entry(const Rating& a, const Rating& b) {
    return key(a) == key(b);
}

bool pieces_can_make(const Formulary& formulary, const std::string& drug, Dose amount) {
    const Drug* found = formulary.find(drug);
    if (found == nullptr || found->products.empty()) return true;
    std::int64_t grain = 0;
    for (const ListedProduct& listed : found->products) {
        const Product& product = listed.product;
        if (is_liquid(product.form)) return true;  // a drop more or less: any amount may have been measured
        const std::int64_t parts = product.cuts == Cuts::quarters ? 4 : product.cuts == Cuts::halves ? 2 : 1;
        grain = std::gcd(grain, product.strength.ng() / parts);
    }
    return grain == 0 || amount.ng() % grain == 0;
}

DiaryImport preview_diary_csv(std::string_view text, std::string_view file_name, const ImportGround& ground) {
    DiaryImport import;
    if (holds_ratings(text)) {
        const auto rows = read_rating_rows(text, file_name, ground.zone);
        if (rows)
            judge_rows(import, *rows, ground.diary.ratings, import.ratings, ground);
        else
            add_unreadable(import, rows.faults());
        return import;
    }
    const auto rows = read_intake_rows(text, file_name, ground.formulary, ground.zone);
    if (rows)
        judge_rows(import, *rows, ground.diary.intake, import.intake, ground);
    else
        add_unreadable(import, rows.faults());
    return import;
}

}  // namespace evenfall
