// SPDX-License-Identifier: GPL-3.0-or-later
#include <fstream>
#include <iostream>

#include "rules/texts.h"
#include "sample_data/caseload.h"

// Writes the invented caseload to the file named on the command line.
int main(int count, char** words) {
    using namespace evenfall;
    if (count != 2) {
        std::cerr << "usage: evenfall_sample_data FILE\n";
        return 2;
    }
    const auto formulary = load_formulary(resources_folder() / "formulary.json");
    const auto rules = Rules::load(resources_folder() / "rules.json");
    if (!formulary || !rules) {
        std::cerr << "the formulary or the rules cannot be read\n";
        return 1;
    }
    const auto invented = sample::invent_caseload(*formulary, *rules);
    for (const std::string& refused : invented.refused) std::cerr << refused << '\n';
    std::ofstream file(words[1], std::ios::binary);
    file << write_caseload(invented.caseload);
    return file.flush() && invented.refused.empty() ? 0 : 1;
}
