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
    /// Somebody of whom nothing can be made. What several are refused for is said once.
    void refuse(const std::string& name, const Faults& faults);
    /// Somebody whom the filter leaves out.
    void pass_over(const std::string& name) { passed_over_.push_back(name); }

    /// For one person of whom nothing was made: says which older files lie in the folder.
    void leave_older_files() { name_older_files({}, {}, {}); }

    /// On standard output. Who was asked for is who got a paper (`people`) and who stands in `not_made` with
    /// nothing made; the papers that were asked for are those written and those named in `not_made`.
    void print_summary() const;
    Exit exit() const;

  private:
    PaperBatch batch_of(const PaperPerson& person) const;
    /// The papers of somebody of whom nothing is known.
    std::vector<Paper> papers_asked() const;
    QString prefix_of(const std::string& name) const;
    /// Keeps account of what was asked for and what of it was not made.
    void account(const std::string& name, const std::vector<Paper>& asked, const std::vector<Paper>& written,
                 const Faults& faults);
    /// Of the papers that this run was to make: a new one beside an old one looks as if both held. `told`:
    /// what was said of them already.
    void name_older_files(const QString& prefix, const std::vector<Paper>& written, const Faults& told);
    void note_issued(const PaperPerson& person, const std::vector<Paper>& written);

    PaperBatch batch_;
    QString folder_;
    bool several_;
    const Texts& texts_;
    TextShelf shelf_;
    std::set<QString> used_;      ///< beginnings of file names
    std::set<std::string> said_;  ///< of those who are refused
    int people_asked_ = 0;
    int people_ = 0;  ///< for whom something was written
    std::size_t papers_asked_ = 0;
    std::size_t written_ = 0;
    bool all_noted_ = true;
    nlohmann::ordered_json not_made_ = nlohmann::ordered_json::array();
    std::vector<std::string> passed_over_;
    std::set<std::string> older_;  ///< paths
};

}  // namespace evenfall::app
