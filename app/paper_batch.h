// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
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

/// Writes each paper of `batch` as <prefix><paper>.pdf into a folder. Papers that cannot be made are faults,
/// each with the paper's name as its place; the others are written all the same.
Faults write_papers(const papers::PaperSource& source, const PaperBatch& batch, const QString& folder,
                    const QString& prefix = {});

}  // namespace evenfall::app
