// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/diary_csv.h"
#include "exchange/read_parts.h"
#include "model/strict_json.h"

namespace evenfall::case_file {
namespace {

constexpr std::size_t kMostBytes = 32u << 20;

/// A CSV file is named, not pathed: it lies beside the case file.
bool is_plain_name(const std::string& name) {
    return !name.empty() && name.find_first_of("/\\") == std::string::npos && name != "." && name != "..";
}

void append(const Reader& reader, const Faults& faults) {
    reader.faults.insert(reader.faults.end(), faults.begin(), faults.end());
}

/// The text of the CSV file that `value` names.
Result<std::string> named_file(const Reader& reader, const std::string& name, const std::string& place) {
    if (!is_plain_name(name)) return Fault{"case-file-name", place, {{"text", name.substr(0, 80)}}};
    return read_text_file(reader.folder / name, kMostBytes);
}

void read_rating(const Reader& reader, const Json& value, const std::string& place, Diary& diary) {
    StrictObject object(value, place, reader.faults);
    Rating rating;
    reader.time(object, "rated_at", rating.rated_at);
    object.text("item", rating.item);
    object.whole("severity", rating.severity, 0, 10);
    diary.ratings.push_back(std::move(rating));
}

void read_intake_part(StrictObject& object, const Reader& reader, Diary& diary) {
    const Json* value = object.find("intake");
    if (!value) return;
    if (!value->is_string()) {
        object.list("intake", [&](const Json& entry, const std::string& at) {
            diary.intake.push_back(read_intake(reader, entry, at, false));
        });
        return;
    }
    const auto name = value->get<std::string>();
    auto text = named_file(reader, name, object.place("intake"));
    if (!text) return append(reader, text.faults());
    auto read = read_intake_csv(*text, name, reader.formulary, reader.given.zone);
    if (!read) return append(reader, read.faults());
    diary.intake = std::move(read->entries);
    for (Message& note : read->notes) reader.given.notes.push_back(std::move(note));
}

void read_symptoms_part(StrictObject& object, const Reader& reader, Diary& diary) {
    const Json* value = object.find("symptoms");
    if (!value) return;
    if (!value->is_string()) {
        object.list("symptoms",
                    [&](const Json& entry, const std::string& at) { read_rating(reader, entry, at, diary); });
        return;
    }
    const auto name = value->get<std::string>();
    auto text = named_file(reader, name, object.place("symptoms"));
    if (!text) return append(reader, text.faults());
    auto read = read_ratings_csv(*text, name, reader.given.zone);
    if (!read) return append(reader, read.faults());
    diary.ratings = std::move(read->entries);
    for (Message& note : read->notes) reader.given.notes.push_back(std::move(note));
}

}  // namespace

void read_diary(const Reader& reader, const Json& value, const std::string& place) {
    StrictObject object(value, place, reader.faults);
    Diary diary;
    object.word("use", diary.use, Need::may);
    read_intake_part(object, reader, diary);
    read_symptoms_part(object, reader, diary);
    reader.given.diary = std::move(diary);
}

}  // namespace evenfall::case_file
