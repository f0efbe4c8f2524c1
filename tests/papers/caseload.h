// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <stdexcept>
#include <utility>
#include <vector>

#include "casework/desk.h"
#include "casework/record_check.h"
#include "exchange/caseload_file.h"
#include "model/strict_json.h"
#include "papers/source.h"
#include "rules/texts.h"

namespace evenfall::papers {

/// The people of the shipped caseload, with what their papers are made from on the day that it is told of.
class Caseload {
  public:
    Caseload()
        : formulary_(load_formulary(resources_folder() / "formulary.json").value()),
          rules_(Rules::load(resources_folder() / "rules.json").value()) {
        const auto path = std::filesystem::path(EVENFALL_SOURCE_DIR) / "sample_data" / "caseload.json";
        auto file = read_caseload(read_text_file(path, 32u << 20).value(), "caseload.json").value();
        const LocalTime now = file.as_of;
        const Instant at(now.time_since_epoch());
        auto log = log_in_memory(
            "demo", [at] { return at; }, std::move(file.events));
        auto desk = Desk::open(std::move(log), formulary_, rules_,
                               {"demo", "Demo prescriber", Role::prescriber, "demo"});
        for (const PatientId& patient : desk->patients()) {
            const auto record = desk->record(patient);
            PaperSource source =
                source_from_record(**record, desk->clinic(), formulary_, rules_, desk->scales(), day_of(now));
            take_check(source, **record, rules_, Zone::named("UTC", "").value(), now,
                       usual_judged_days(rules_));
            source.made_by = "Demo prescriber";
            people_.push_back(std::move(source));
        }
    }
    Caseload(const Caseload&) = delete;
    Caseload& operator=(const Caseload&) = delete;

    const std::vector<PaperSource>& people() const { return people_; }
    const PaperSource& person(const std::string& reference) const {
        for (const PaperSource& each : people_)
            if (each.person.reference == reference) return each;
        throw std::logic_error(reference);
    }

  private:
    Formulary formulary_;
    Rules rules_;
    std::vector<PaperSource> people_;
};

}  // namespace evenfall::papers
