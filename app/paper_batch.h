// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <map>
#include <string>
#include <vector>

#include "app/basis.h"
#include "papers/paper_style.h"
#include "papers/papers.h"

namespace evenfall::app {

/// Which papers of one person are written, and how.
struct PaperBatch {
    std::vector<Paper> papers;
    ui::PaperOptions options;
    std::string language = "en";
    bool replace = false;
};

/// The texts of each language, read once.
class TextShelf {
  public:
    /// Faults of reading them, or the texts, which live as long as the shelf.
    Result<const Texts*> in(const std::string& language);

  private:
    std::map<std::string, Texts> texts_;
};

/// One fault that stood against a paper; there may be several.
struct Refusal {
    Paper paper;
    Fault fault;
};

/// What became of the papers of one person.
struct Outcome {
    std::vector<Paper> written;
    std::vector<Refusal> refused;
};

/// Where a paper lies: <prefix><paper>.pdf in the folder.
QString paper_file(const QString& folder, const QString& prefix, Paper paper);

/// Writes each paper of `batch` into a folder. Where one cannot be made the others are written all the same.
/// Faults: of the texts of its language, without which none is.
Result<Outcome> write_papers(const papers::PaperSource& source, const PaperBatch& batch,
                             const QString& folder, const QString& prefix, TextShelf& shelf);

/// The refusals as faults, each with its papers in its place. Numbers that are missing are one fault for all
/// papers that must name them; its remedy is the case file, or the clinic's settings where there is none.
Faults faults_of(const std::vector<Refusal>& refused, bool of_case, const Texts& texts);

}  // namespace evenfall::app
