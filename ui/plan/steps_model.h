// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractTableModel>
#include <functional>
#include <optional>
#include <set>

#include "model/plan.h"

namespace evenfall::ui {

/// Where the rows of a plan stand.
struct StepsStanding {
    int signed_steps = 0;           ///< so many first steps stay as they were signed
    std::optional<int> in_force{};  ///< the row of the step in force today
    std::set<int> by_hand{};        ///< rows that were set by hand

    bool operator==(const StepsStanding&) const = default;
};

/// The steps of a plan as rows. Every cell has its whole content as text; the delegate draws it.
class StepsModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { step_column, daily_column, pieces_column, flags_column, column_count };

    /// What stands in columns of its own; what does not is drawn, and heard, with its neighbour: the day's
    /// amount with the step, the rules with the pieces.
    struct Apart {
        bool daily = true, rules = true;
    };
    void set_apart(Apart apart) { apart_ = apart; }
    Apart apart() const { return apart_; }

    /// `sentence` says a flag in the window's language.
    explicit StepsModel(std::function<QString(const Flag&)> sentence, QObject* parent = nullptr);

    using Standing = StepsStanding;
    void set_plan(const Plan& plan, Standing standing = {});
    void clear();
    const Plan& plan() const { return plan_; }
    const Standing& standing() const { return standing_; }
    bool is_signed(int row) const { return row < standing_.signed_steps; }
    bool is_to_sign(int row) const { return !is_signed(row) && step(row).status == StepStatus::committed; }
    bool is_in_force(int row) const { return standing_.in_force == row; }
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
    /// "signed", "in force", "to sign" or "outlook", and whether it was set by hand.
    QString status_text(int row) const;
    /// "Step 3", or "Stage 2 of 4".
    QString number_text(int row) const;
    /// What one dose is made of: "half of a 2 mg tablet"; of another agent what it is.
    QString dose_text(const PlannedDose& dose) const;

  private:
    QString pieces_cell(const Step& step) const;
    QString daily_cell(int row) const;
    QString flags_cell(const Step& step) const;
    std::function<QString(const Flag&)> sentence_;
    Plan plan_;
    int stages_ = 0;
    Standing standing_;
    Apart apart_{};
};

/// A line about a plan: "24 reductions in 62 weeks · largest cut 10 % · OFF on Mon 13 Dec 2027".
QString summary_text(const Plan& plan);

}  // namespace evenfall::ui
