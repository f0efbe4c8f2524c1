// SPDX-License-Identifier: GPL-3.0-or-later
#include <utility>

#include "casework/call.h"
#include "model/json.h"

namespace evenfall {

using nlohmann::json;

std::string print_call(const CallForm& form) {
    json days = json::object();
    for (const auto& [day, said] : form.days) days[print_day(day)] = word(said);
    return json{{"begun", form.begun},
                {"answers", form.answers},
                {"scores", form.scores},
                {"function", form.function},
                {"days", days},
                {"counted", form.counted},
                {"own_words", form.own_words},
                {"next_on", form.next_on},
                {"dangers_written", form.dangers_written},
                {"counted_before", form.counted_before},
                {"beside", form.beside}}
        .dump(-1, ' ', false, json::error_handler_t::replace);
}

Result<CallForm> read_call(const std::string& text) {
    try {
        const json read = json::parse(text);
        CallForm form;
        read.at("begun").get_to(form.begun);
        read.at("answers").get_to(form.answers);
        read.at("scores").get_to(form.scores);
        read.at("function").get_to(form.function);
        read.at("counted").get_to(form.counted);
        read.at("own_words").get_to(form.own_words);
        read.at("next_on").get_to(form.next_on);
        read.at("dangers_written").get_to(form.dangers_written);
        // Drafts that an earlier version put away have neither.
        if (read.contains("counted_before")) read.at("counted_before").get_to(form.counted_before);
        if (read.contains("beside")) read.at("beside").get_to(form.beside);
        for (const auto& [day, said] : read.at("days").items())
            form.days[json(day).get<Day>()] = said.get<CallDay>();
        return form;
    } catch (const std::exception& error) {
        return Fault{"call-draft-unreadable", "draft", {{"text", error.what()}}};
    }
}

CallForm gone_on(CallForm form, const std::vector<std::string>& dangers, LocalTime now) {
    const Day begun = day_of(form.begun);
    std::erase_if(form.days, [begun](const auto& each) { return each.first >= begun; });
    for (const std::string& question : dangers) form.answers.erase(question);
    form.dangers_written.clear();
    if (!form.counted.empty()) form.counted_before = std::exchange(form.counted, {});
    form.begun = now;
    return form;
}

}  // namespace evenfall
