// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <string>
#include <vector>

#include "app/basis.h"
#include "casework/desk.h"
#include "papers/paper_style.h"  // of ui
#include "papers/papers.h"

namespace evenfall::app {

/// Which papers of one person are written, and how.
struct PaperBatch {
    std::vector<Paper> papers;
    ui::PaperOptions options;
    std::string language = "en";
    bool replace = false;
};

/// Everything that papers of a record are made from, with the supply of its plan worked out where it has one.
papers::PaperSource paper_source(const PatientRecord& record, const Desk& desk, Day as_of);

/// Writes each paper of `batch` as <prefix><paper>.pdf into a folder. Papers that cannot be made are faults,
/// each with the paper's name as its place; the others are written all the same.
Faults write_papers(const papers::PaperSource& source, const PaperBatch& batch, const QString& folder,
                    const QString& prefix = {});

}  // namespace evenfall::app
