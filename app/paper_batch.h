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

/// Writes each paper of `batch` as <prefix><paper>.pdf into a folder. Papers that cannot be made are faults,
/// each with the paper's name as its place; the others are written all the same, and added to `written`.
Faults write_papers(const papers::PaperSource& source, const PaperBatch& batch, const QString& folder,
                    const QString& prefix, TextShelf& shelf, std::vector<Paper>& written);

}  // namespace evenfall::app
