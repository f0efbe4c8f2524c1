// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCoreApplication>
#include <algorithm>
#include <array>

#include "diary/sheet.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

struct Say {
    Q_DECLARE_TR_FUNCTIONS(SymptomList)
};

struct Listed {
    const char* item;
    const char* group;
};

constexpr std::array<Listed, 20> kListed{
    {{"anxiety", QT_TRANSLATE_NOOP("SymptomList", "Mind")},
     {"panic", "Mind"},
     {"low mood", "Mind"},
     {"irritability", "Mind"},
     {"poor concentration", "Mind"},
     {"feeling unreal", "Mind"},
     {"poor sleep", QT_TRANSLATE_NOOP("SymptomList", "Sleep")},
     {"sleep", "Sleep"},
     {"nightmares", "Sleep"},
     {"restlessness", QT_TRANSLATE_NOOP("SymptomList", "Body")},
     {"muscle tension", "Body"},
     {"headache", "Body"},
     {"tremor", "Body"},
     {"poor balance", "Body"},
     {"sweating", "Body"},
     {"palpitations", "Body"},
     {"nausea", "Body"},
     {"tingling or numbness", QT_TRANSLATE_NOOP("SymptomList", "Senses")},
     {"sensitive to light or sound", "Senses"},
     {"ringing in the ears", "Senses"}}};

std::size_t place_of(const std::string& item) {
    const auto found = std::ranges::find_if(kListed, [&](const Listed& each) { return each.item == item; });
    return static_cast<std::size_t>(found - kListed.begin());
}

}  // namespace

QString symptom_name(const std::string& item) {
    return sentence_case(to_text(item));
}

QString symptom_group(const std::string& item) {
    const std::size_t at = place_of(item);
    return at < kListed.size() ? Say::tr(kListed[at].group) : Say::tr("Other");
}

const std::vector<std::string>& listed_symptoms() {
    static const std::vector<std::string> items = [] {
        std::vector<std::string> all;
        for (const Listed& each : kListed)
            if (std::string_view(each.item) != "sleep")
                all.emplace_back(each.item);  // "poor sleep" asks the same
        return all;
    }();
    return items;
}

std::vector<std::string> in_list_order(std::vector<std::string> items) {
    std::ranges::sort(items);
    items.erase(std::ranges::unique(items).begin(), items.end());
    std::ranges::stable_sort(items, {}, place_of);
    return items;
}

}  // namespace evenfall::ui
