// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/read_parts.h"
#include "units/dose_text.h"

namespace evenfall::case_file {

bool Reader::drug(StrictObject& object, std::string_view key, std::string& target, Need need) const {
    if (!object.text(key, target, need)) return false;
    if (formulary.find(target)) return true;
    std::vector<std::string> names;
    for (const auto& [name, known] : formulary.drugs) names.push_back(name);
    fault(object.place(key), "case-drug-unknown",
          {{"text", target.substr(0, 40)}, {"nearest", nearest_word(target, names)}});
    return false;
}

bool Reader::dose(StrictObject& object, std::string_view key, const std::string& drug, Dose& target) const {
    if (!object.amount_mg(key, target)) return false;
    if (target.is_zero()) {
        fault(object.place(key), "amount-zero");
        return false;
    }
    const Drug* known = formulary.find(drug);
    if (known && looks_like_unit_slip(*known, target)) {
        fault(object.place(key), "case-unit-slip", {{"amount", print_dose(target)}, {"drug", drug}});
        return false;
    }
    return true;
}

bool Reader::placed(LocalTime time, const std::string& place) const {
    switch (given.zone.to_instant(time).change) {
        case ClockChange::skipped:
            fault(place, "case-time-skipped",
                  {{"text", print_local_time(time)}, {"zone", given.zone.name()}});
            return false;
        case ClockChange::twice:
            given.notes.push_back({"case-time-twice", {{"place", place}, {"text", print_local_time(time)}}});
            return true;
        case ClockChange::none:
            return true;
    }
    return true;
}

bool Reader::time(StrictObject& object, std::string_view key, LocalTime& target, Need need) const {
    return object.parsed(key, target, parse_local_time, need) && placed(target, object.place(key));
}

DoseTime read_dose_time(const Reader& reader, const Json& value, const std::string& place) {
    StrictObject object(value, place, reader.faults);
    DoseTime dose;
    reader.drug(object, "drug", dose.drug);
    object.parsed("at", dose.at, parse_clock);
    reader.dose(object, "amount_mg", dose.drug, dose.amount);
    object.text("how", dose.how, Need::may);
    object.text("why", dose.why, Need::may);
    return dose;
}

void read_product(const Reader& reader, const Json& value, const std::string& place) {
    StrictObject object(value, place, reader.faults);
    Product product;
    const bool known = reader.drug(object, "drug", product.drug) & object.word("form", product.form);
    if (!known) {
        for (const char* key : {"strength_mg", "strength_mg_per_ml", "measure_ml", "cuts", "price"})
            object.find(key);
        return;
    }
    if (is_liquid(product.form)) {
        reader.dose(object, "strength_mg_per_ml", product.drug, product.strength);
        if (object.volume_ml("measure_ml", product.measure) && product.measure.is_zero())
            reader.fault(object.place("measure_ml"), "measure-missing");
        Cuts cuts = Cuts::whole;
        if (object.word("cuts", cuts, Need::may) && cuts != Cuts::whole)
            reader.fault(object.place("cuts"), "product-not-cut", {{"form", word(product.form)}});
    } else {
        reader.dose(object, "strength_mg", product.drug, product.strength);
        if (object.word("cuts", product.cuts, Need::may) && product.cuts != Cuts::whole &&
            (is_modified_release(product.form) || product.form == Form::capsule))
            reader.fault(object.place("cuts"), "product-not-cut", {{"form", word(product.form)}});
    }
    Price price;
    const bool priced = object.parsed("price", price, parse_price, Need::may);
    const std::int64_t parts = product.cuts == Cuts::quarters ? 4 : product.cuts == Cuts::halves ? 2 : 1;
    if (!product.strength.part(parts))
        reader.fault(object.place("strength_mg"), "case-strength-too-fine",
                     {{"amount", print_dose(product.strength)}});
    if (priced) reader.given.prices[product] = price;
    reader.given.products.push_back(std::move(product));
}

void read_schedule_entry(const Reader& reader, const Json& value, const std::string& place) {
    StrictObject object(value, place, reader.faults);
    DatedRegimen entry;
    object.parsed("starts", entry.from, parse_day);
    object.list("doses", [&](const Json& dose, const std::string& at) {
        entry.regimen.doses.push_back(read_dose_time(reader, dose, at));
    });
    if (entry.regimen.doses.size() > kMostDoseTimes)
        reader.fault(object.place("doses"), "regimen-too-many", {{"most", std::to_string(kMostDoseTimes)}});
    std::stable_sort(entry.regimen.doses.begin(), entry.regimen.doses.end(),
                     [](const DoseTime& a, const DoseTime& b) { return a.at < b.at; });
    reader.given.schedule.push_back(std::move(entry));
}

Intake read_intake(const Reader& reader, const Json& value, const std::string& place, bool slip_is_a_fault) {
    StrictObject object(value, place, reader.faults);
    Intake intake;
    reader.time(object, "taken_at", intake.taken_at);
    reader.drug(object, "drug", intake.drug);
    if (slip_is_a_fault) {
        reader.dose(object, "amount_mg", intake.drug, intake.amount);
    } else if (object.amount_mg("amount_mg", intake.amount) && intake.amount.is_zero()) {
        reader.fault(object.place("amount_mg"), "amount-zero");
    }
    object.word("why", intake.why, Need::may);
    object.text("note", intake.note, Need::may);
    return intake;
}

}  // namespace evenfall::case_file
