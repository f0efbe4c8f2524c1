// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <set>

#include <nlohmann/json.hpp>

#include "app/paper_batch.h"
#include "app/paper_people.h"

namespace evenfall::app {

/// Writes the papers of one person after the other into a folder, notes what went out where a record can note
/// it, and keeps account of what was not made.
class Writing {
  public:
    /// A batch without papers is all that can be made of a person; one without a language is in the person's
    /// own. `several`: the files begin with the person's name, and nobody's go over another's of this run.
    Writing(PaperBatch batch, QString folder, bool several, const Texts& texts);

    /// The number of papers written. What is wrong is said on standard error.
    int write(const PaperPerson& person);
    /// Somebody of whom nothing can be made.
    void refuse(const std::string& name, const Faults& faults);

    void print_summary() const;
    Exit exit() const;

  private:
    PaperBatch batch_of(const PaperPerson& person) const;
    void note_issued(const PaperPerson& person, const std::vector<Paper>& written);

    PaperBatch batch_;
    QString folder_;
    bool several_;
    const Texts& texts_;
    TextShelf shelf_;
    std::set<QString> used_;  ///< beginnings of file names
    int people_ = 0;
    int written_ = 0;
    bool all_noted_ = true;
    nlohmann::ordered_json not_made_ = nlohmann::ordered_json::array();
};

}  // namespace evenfall::app
