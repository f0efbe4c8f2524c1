// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractTableModel>
#include <functional>

#include "model/plan.h"

namespace evenfall::ui {

/// The steps of a plan as rows. Every cell has its whole content as text; the delegate draws it.
class StepsModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { step_column, daily_column, pieces_column, flags_column, column_count };

    /// `sentence` says a flag in the window's language.
    explicit StepsModel(std::function<QString(const Flag&)> sentence, QObject* parent = nullptr);

    /// The first `signed_steps` of the plan stay as they were signed.
    void set_plan(const Plan& plan, int signed_steps = 0);
    void clear();
    const Step& step(int row) const { return plan_.steps[static_cast<std::size_t>(row)]; }
    const std::string& drug() const { return plan_.request.drug; }
    /// Flags that weigh on a row, the first the one that is written out.
    const std::vector<Flag>& flags(int row) const { return step(row).flags; }

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

    /// The texts of a cell's parts.
    static QString dates_text(const Step& step);
    static QString length_text(const Step& step);
    static QString daily_text_of(const Step& step);
    /// "signed", "to sign" or "outlook".
    QString status_text(int row) const;

  private:
    QString pieces_cell(const Step& step) const;
    QString flags_cell(const Step& step) const;
    std::function<QString(const Flag&)> sentence_;
    Plan plan_;
    int signed_ = 0;
};

/// A line about a plan: "24 reductions in 62 weeks · largest cut 10 % · OFF on Mon 13 Dec 2027".
QString summary_text(const Plan& plan);

}  // namespace evenfall::ui
