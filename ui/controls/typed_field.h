// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLabel>
#include <QLineEdit>
#include <QWidget>
#include <optional>

#include "rules/texts.h"
#include "units/day.h"
#include "units/dose_text.h"

namespace evenfall::ui {

/// A line edit with something written inside its right end: the unit, or what was understood.
class EchoLineEdit : public QLineEdit {
    Q_OBJECT
  public:
    explicit EchoLineEdit(QWidget* parent = nullptr);
    void set_echo(const QString& echo);
    const QString& echo() const { return echo_; }
    void set_wrong(bool wrong);
    bool is_wrong() const { return wrong_; }

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    QString echo_;
    bool wrong_ = false;
};

/// A field that is typed into and read by a parser of core: what was understood is echoed in the field, what
/// was refused is said in words beneath it. Nothing typed is ever changed or thrown away.
class TypedField : public QWidget {
    Q_OBJECT
  public:
    /// `name` with its unit in words is what a screen reader hears ("Amount, milligrams").
    TypedField(const Texts& texts, const QString& name, QWidget* parent);

    QString typed() const { return edit_->text(); }
    void set_typed(const QString& text);
    bool is_blank() const { return edit_->text().trimmed().isEmpty(); }
    /// Whether what stands there was refused. A blank field is not refused unless it is required.
    bool is_refused() const { return edit_->is_wrong(); }
    void set_required(bool required);
    /// A fault that another part found about this field ("" takes it back at the next edit).
    void show_fault(const QString& sentence);
    QString fault() const { return fault_->text(); }
    EchoLineEdit* edit() const { return edit_; }
    /// Reads again; where the field is required and blank, says so. Returns whether it may be used.
    bool check();

  signals:
    void edited();     ///< at each change
    void committed();  ///< Enter, or the field was left after a change

  protected:
    /// Reads `text`: the echo, or the faults.
    virtual Result<QString> read(const QString& text) const = 0;
    virtual QString unit() const { return {}; }
    const Texts& texts() const { return texts_; }

  private:
    void reread();
    void show(const QString& echo, const QString& fault);
    const Texts& texts_;
    EchoLineEdit* edit_;
    QLabel* fault_;
    bool required_ = false;
};

/// An amount in milligrams. Digits alone are read by `parse_mg`; with a unit written, by `parse_dose`. Never
/// a spin box: those swallow "1,5" as 15.
class DoseEdit : public TypedField {
    Q_OBJECT
  public:
    DoseEdit(const Texts& texts, const QString& name, QWidget* parent = nullptr);
    /// What was understood; empty where blank or refused.
    std::optional<Dose> dose() const;
    void set_dose(std::optional<Dose> dose);

  protected:
    Result<QString> read(const QString& text) const override;
    QString unit() const override;
};

/// A volume in millilitres.
class VolumeEdit : public TypedField {
    Q_OBJECT
  public:
    VolumeEdit(const Texts& texts, const QString& name, QWidget* parent = nullptr);
    std::optional<Volume> volume() const;
    void set_volume(std::optional<Volume> volume);

  protected:
    Result<QString> read(const QString& text) const override;
    QString unit() const override;
};

/// A percentage, exact.
class PercentEdit : public TypedField {
    Q_OBJECT
  public:
    PercentEdit(const Texts& texts, const QString& name, QWidget* parent = nullptr);
    std::optional<Share> share() const;
    /// Shows a share that was typed as a percentage before ("7.5").
    void set_percent(const QString& digits) { set_typed(digits); }

  protected:
    Result<QString> read(const QString& text) const override;
    QString unit() const override;
};

/// A whole number within bounds, with the word for what is counted ("days").
class WholeEdit : public TypedField {
    Q_OBJECT
  public:
    WholeEdit(const Texts& texts, const QString& name, int least, int most, const QString& counted,
              QWidget* parent = nullptr);
    std::optional<int> number() const;
    void set_number(std::optional<int> number);

  protected:
    Result<QString> read(const QString& text) const override;
    QString unit() const override;

  private:
    Result<int> parse(const QString& text) const;
    int least_;
    int most_;
    QString counted_;
};

/// A time on the clock, "08:00"; "8", "8:00" and "0800" are understood and echoed.
class ClockEdit : public TypedField {
    Q_OBJECT
  public:
    ClockEdit(const Texts& texts, const QString& name, QWidget* parent = nullptr);
    std::optional<ClockTime> time() const;
    void set_time(std::optional<ClockTime> time);

  protected:
    Result<QString> read(const QString& text) const override;
};

/// A civil day, typed YYYY-MM-DD or picked from a calendar (Alt+Down); echoes the weekday.
class DayEdit : public TypedField {
    Q_OBJECT
  public:
    DayEdit(const Texts& texts, const QString& name, QWidget* parent = nullptr);
    std::optional<Day> day() const;
    void set_day(std::optional<Day> day);
    /// Opens the calendar.
    void pick();

  protected:
    Result<QString> read(const QString& text) const override;
};

}  // namespace evenfall::ui
