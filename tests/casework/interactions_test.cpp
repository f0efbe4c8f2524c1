// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/interactions.h"

#include <gtest/gtest.h>

#include "rules/texts.h"

namespace evenfall {
namespace {

TEST(Interactions, KnowAnOpioidHoweverItWasTypedInEachLanguage) {
    const Rules rules = Rules::load(resources_folder() / "rules.json").value();
    for (const char* typed : {"oxycodone, 5 mg", "Tramadol/acetaminophen", "METHADONE", "oxicodona; 5 mg",
                              "morfina (de noche)", "codeína"})
        EXPECT_TRUE(is_listed_medicine(typed, "opioid-medicines", rules)) << typed;
    for (const char* typed : {"ibuprofen, 400 mg", "apomorphine", "naloxone"})
        EXPECT_FALSE(is_listed_medicine(typed, "opioid-medicines", rules)) << typed;
    EXPECT_TRUE(is_listed_medicine("pregabalina, 75 mg", "sedative-medicines", rules));
}

// The Spanish names of the lists are those under which the papers print them.
TEST(Interactions, KnowEveryListedMedicineByTheNameThatPapersPrint) {
    const Rules rules = Rules::load(resources_folder() / "rules.json").value();
    for (const char* list : {"opioid-medicines", "sedative-medicines"})
        for (const std::string& language : languages(resources_folder())) {
            const Texts texts = Texts::load(resources_folder(), language).value();
            for (const auto& [name, listed] : rules.find(list)->values)
                if (const std::string id = "paper-medicine-" + name; texts.has(id)) {
                    EXPECT_TRUE(is_listed_medicine(texts.text(id), list, rules)) << texts.text(id);
                }
        }
}

}  // namespace
}  // namespace evenfall
