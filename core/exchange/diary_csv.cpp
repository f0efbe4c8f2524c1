// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/diary_csv.h"

#include <algorithm>
#include <charconv>
#include <map>
#include <utility>

#include "exchange/csv.h"
#include "model/strict_object.h"
#include "units/dose_text.h"

namespace evenfall {
namespace {

constexpr std::size_t kMostFaults = 200;  // enough to mend a file by; a wholly wrong one needs no more

/// A table whose columns are known by name.
class Columns {
  public:
    Columns(const CsvTable& table, std::string_view file, const std::vector<std::string>& must,
            const std::vector<std::string>& may, Faults& faults)
        : file_(file), faults_(faults) {
        for (std::size_t i = 0; i < table.header.size(); ++i) {
            const std::string& name = table.header[i];
            const bool known =
                std::ranges::find(must, name) != must.end() || std::ranges::find(may, name) != may.end();
            if (!known || !index_.emplace(name, i).second)
                faults_.push_back({"csv-column-unknown", std::string(file), {{"text", name.substr(0, 40)}}});
        }
        for (const std::string& name : must)
            if (!index_.contains(name))
                faults_.push_back({"csv-column-missing", std::string(file), {{"text", name}}});
    }

    std::string_view cell(const CsvTable::Row& row, const std::string& column) const {
        const auto found = index_.find(column);
        return found == index_.end() ? std::string_view() : std::string_view(row.cells[found->second]);
    }
    std::string place(const CsvTable::Row& row, const std::string& column) const {
        return std::string(file_) + ", row " + std::to_string(row.line) + ", column " + column;
    }
    void fault(const CsvTable::Row& row, const std::string& column, std::string id, Args args = {}) const {
        args.emplace("text", std::string(cell(row, column).substr(0, 40)));
        faults_.push_back({std::move(id), place(row, column), std::move(args)});
    }
    bool time(const CsvTable::Row& row, const std::string& column, const Zone& zone, LocalTime& target,
              std::vector<Message>& notes) const {
        if (!take(parse_local_time(cell(row, column), place(row, column)), target, faults_)) return false;
        const ClockChange change = zone.to_instant(target).change;
        if (change == ClockChange::skipped) fault(row, column, "case-time-skipped", {{"zone", zone.name()}});
        if (change == ClockChange::twice)
            notes.push_back(
                {"case-time-twice", {{"place", place(row, column)}, {"text", print_local_time(target)}}});
        return change != ClockChange::skipped;
    }
    Faults& faults() const { return faults_; }
    bool too_many() const { return faults_.size() >= kMostFaults; }

  private:
    std::map<std::string, std::size_t> index_;
    std::string_view file_;
    Faults& faults_;
};

Intake intake_of(const Columns& columns, const CsvTable::Row& row, const Formulary& formulary,
                 const Zone& zone, std::vector<Message>& notes) {
    Intake intake;
    columns.time(row, "taken_at", zone, intake.taken_at, notes);
    intake.drug = columns.cell(row, "drug");
    if (!formulary.find(intake.drug)) {
        std::vector<std::string> names;
        for (const auto& [name, drug] : formulary.drugs) names.push_back(name);
        columns.fault(row, "drug", "case-drug-unknown", {{"nearest", nearest_word(intake.drug, names)}});
    }
    if (take(parse_mg(columns.cell(row, "amount_mg"), columns.place(row, "amount_mg")), intake.amount,
             columns.faults()) &&
        intake.amount.is_zero())
        columns.fault(row, "amount_mg", "amount-zero");
    if (const auto why = from_word<TakenWhy>(columns.cell(row, "why")))
        intake.why = *why;
    else
        columns.fault(row, "why", "csv-why-unknown", {{"expected", "as planned, symptoms, forgot, other"}});
    intake.note = columns.cell(row, "note");
    return intake;
}

Rating rating_of(const Columns& columns, const CsvTable::Row& row, const Zone& zone,
                 std::vector<Message>& notes) {
    Rating rating;
    columns.time(row, "rated_at", zone, rating.rated_at, notes);
    rating.item = columns.cell(row, "item");
    if (rating.item.empty()) columns.fault(row, "item", "item-missing");
    const std::string_view text = columns.cell(row, "severity");
    const auto read = std::from_chars(text.data(), text.data() + text.size(), rating.severity);
    if (read.ec != std::errc() || read.ptr != text.data() + text.size() || rating.severity < 0 ||
        rating.severity > 10)
        columns.fault(row, "severity", "score-out-of-range");
    return rating;
}

template <class T, class RowOf>
Result<DiaryRows<T>> read_rows(std::string_view text, std::string_view file_name,
                               const std::vector<std::string>& must, const std::vector<std::string>& may,
                               RowOf row_of) {
    auto table = read_csv(text, file_name);
    if (!table) return table.faults();
    Faults faults;
    const Columns columns(*table, file_name, must, may, faults);
    if (!faults.empty()) return faults;
    DiaryRows<T> rows;
    for (const auto& row : table->rows) {
        rows.entries.push_back(row_of(columns, row, rows.notes));
        rows.lines.push_back(row.line);
        if (columns.too_many()) break;
    }
    if (!faults.empty()) return faults;
    return rows;
}

const std::vector<std::string> kIntakeMust = {"taken_at", "drug", "amount_mg"};
const std::vector<std::string> kIntakeMay = {"why", "note"};
const std::vector<std::string> kRatingMust = {"rated_at", "item", "severity"};

/// Every row with its own faults.
template <class T, class RowOf>
Result<std::vector<DiaryRowRead<T>>> read_each(std::string_view text, std::string_view file_name,
                                               const std::vector<std::string>& must,
                                               const std::vector<std::string>& may, RowOf row_of) {
    auto table = read_csv(text, file_name);
    if (!table) return table.faults();
    Faults faults;
    const Columns columns(*table, file_name, must, may, faults);
    if (!faults.empty()) return faults;
    std::vector<DiaryRowRead<T>> rows;
    rows.reserve(table->rows.size());
    std::vector<Message> notes;
    for (const auto& row : table->rows) {
        DiaryRowRead<T> read{row.line, row_of(columns, row, notes), {}};
        read.faults = std::exchange(faults, {});
        rows.push_back(std::move(read));
    }
    return rows;
}

}  // namespace

Result<std::vector<DiaryRowRead<Intake>>> read_intake_rows(std::string_view text, std::string_view file_name,
                                                           const Formulary& formulary, const Zone& zone) {
    return read_each<Intake>(
        text, file_name, kIntakeMust, kIntakeMay,
        [&](const Columns& columns, const CsvTable::Row& row, std::vector<Message>& notes) {
            return intake_of(columns, row, formulary, zone, notes);
        });
}

Result<std::vector<DiaryRowRead<Rating>>> read_rating_rows(std::string_view text, std::string_view file_name,
                                                           const Zone& zone) {
    return read_each<Rating>(
        text, file_name, kRatingMust, {},
        [&](const Columns& columns, const CsvTable::Row& row, std::vector<Message>& notes) {
            return rating_of(columns, row, zone, notes);
        });
}

Result<DiaryRows<Intake>> read_intake_csv(std::string_view text, std::string_view file_name,
                                          const Formulary& formulary, const Zone& zone) {
    return read_rows<Intake>(
        text, file_name, kIntakeMust, kIntakeMay,
        [&](const Columns& columns, const CsvTable::Row& row, std::vector<Message>& notes) {
            return intake_of(columns, row, formulary, zone, notes);
        });
}

Result<DiaryRows<Rating>> read_ratings_csv(std::string_view text, std::string_view file_name,
                                           const Zone& zone) {
    return read_rows<Rating>(
        text, file_name, kRatingMust, {},
        [&](const Columns& columns, const CsvTable::Row& row, std::vector<Message>& notes) {
            return rating_of(columns, row, zone, notes);
        });
}

std::string write_intake_csv(const std::vector<Intake>& entries) {
    std::string text = "taken_at,drug,amount_mg,why,note\r\n";
    for (const Intake& entry : entries)
        text += print_local_time(entry.taken_at) + "," + csv_cell(entry.drug) + "," +
                print_mg_digits(entry.amount) + "," + word(entry.why) + "," + csv_cell(entry.note) + "\r\n";
    return text;
}

std::string write_ratings_csv(const std::vector<Rating>& entries) {
    std::string text = "rated_at,item,severity\r\n";
    for (const Rating& entry : entries)
        text += print_local_time(entry.rated_at) + "," + csv_cell(entry.item) + "," +
                std::to_string(entry.severity) + "\r\n";
    return text;
}

}  // namespace evenfall
