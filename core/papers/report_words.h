// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "papers/common.h"

namespace evenfall::papers {

/// What the stabilization check says, in the reader's language. Outlived by the desk and its source.
class ReportWords {
  public:
    explicit ReportWords(const PaperDesk& desk) : desk_(desk), check_(desk.source.judged->check) {}

    /// The rule's sentence, with agents, kinds of use and risks in the reader's words.
    std::string sentence(const Flag& flag) const;
    /// The first entries of a flag, and how many more there are: "3 Dec 2026 08:00 lorazepam 1 mg (not
    /// written down); 2 more". Empty where it has none.
    std::string entries(const Flag& flag, std::size_t most) const;
    /// "08:00 1 mg, 21:00 1.5 mg of clonazepam" for each agent.
    std::string day_of_doses(const std::vector<PlannedDose>& doses) const;
    std::string day_of_doses(const Regimen& regimen) const;
    /// A daily total of the check, in the diary's unit.
    std::string total(double amount) const;

  private:
    std::string entry(const std::string& name) const;
    std::string in_reader_words(const std::string& what) const;
    std::string value(const std::string& name, const std::string& value) const;

    const PaperDesk& desk_;
    const StabilizationCheck& check_;
};

/// "84 percent" without decimals; negative values do not occur.
std::string whole_percent(const Wording& say, double percent);

}  // namespace evenfall::papers
