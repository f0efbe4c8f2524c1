// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

#include "exchange/case.h"
#include "model/strict_object.h"

// The parts of a case file, each read from its own JSON value into the case. Faults are appended with their
// places.

namespace evenfall::case_file {

/// What every part needs to know.
struct Reader {
    const Formulary& formulary;
    const std::filesystem::path& folder;
    Case& given;
    Faults& faults;

    void fault(std::string place, std::string id, Args args = {}) const {
        faults.push_back({std::move(id), std::move(place), std::move(args)});
    }
    /// Reads a drug's name; one that the formulary does not know is a fault that names the nearest.
    bool drug(StrictObject& object, std::string_view key, std::string& target, Need need = Need::must) const;
    /// As an amount above zero that is no likely unit slip of `drug`.
    bool dose(StrictObject& object, std::string_view key, const std::string& drug, Dose& target) const;
    /// A local time that the zone's clock shows; one that it skipped is a fault, one that came twice a note.
    bool time(StrictObject& object, std::string_view key, LocalTime& target, Need need = Need::must) const;
    /// The same for a time already read.
    bool placed(LocalTime time, const std::string& place) const;
};

using Json = nlohmann::json;

void read_patient(const Reader& reader, const Json& value, const std::string& place);
void read_clinic(const Reader& reader, const Json& value, const std::string& place);
void read_prescriber(const Reader& reader, const Json& value, const std::string& place);
void read_risk(const Reader& reader, const Json& value, const std::string& place);
DoseTime read_dose_time(const Reader& reader, const Json& value, const std::string& place);
void read_product(const Reader& reader, const Json& value, const std::string& place);
void read_plan(const Reader& reader, const Json& value, const std::string& place);
void read_equivalence(const Reader& reader, const std::string& drug, const Json& value,
                      const std::string& place);
void read_crossover(const Reader& reader, const Json& value, const std::string& place);
void read_schedule_entry(const Reader& reader, const Json& value, const std::string& place);
void read_supply(const Reader& reader, const Json& value, const std::string& place);
void read_diary(const Reader& reader, const Json& value, const std::string& place);
/// One dose taken; `slip_is_a_fault` where the list is no diary.
Intake read_intake(const Reader& reader, const Json& value, const std::string& place, bool slip_is_a_fault);
void read_checkin(const Reader& reader, const Json& value, const std::string& place);
void read_scale(const Reader& reader, const Json& value, const std::string& place);
void read_kinetics(const Reader& reader, const std::string& drug, const Json& value,
                   const std::string& place);
void read_levels(const Reader& reader, const Json& value, const std::string& place);

}  // namespace evenfall::case_file
