// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QString>
#include <QWidget>
#include <functional>

#include "casework/desk.h"
#include "rules/texts.h"

namespace evenfall::ui {

/// The desk as the window's parts share it: who is selected, what time it is, and the one way to carry out a
/// change. Parts listen to its signals and read again; none of them keeps a record of its own.
class Workbench : public QObject {
    Q_OBJECT

  public:
    /// `now` is the civil time on this machine's clock (fixed in tests and pictures).
    Workbench(Desk desk, Texts texts, std::function<LocalTime()> now, QObject* parent = nullptr);

    Desk& desk() { return desk_; }
    const Desk& desk() const { return desk_; }
    const Texts& texts() const { return texts_; }
    LocalTime now() const { return now_(); }
    Day today() const { return day_of(now_()); }

    /// The selected patient; empty where none is.
    const PatientId& patient() const { return patient_; }
    /// The selected patient's record, or null.
    const PatientRecord* record();
    /// The selected patient's course as of now; empty where none is selected.
    const Course& course();

    void select(const PatientId& patient);

    /// Carries changes out for the selected patient. Where rules object, asks the prescriber for a reason for
    /// each (through `ask_overrides`); shows faults through `show_faults`. Returns whether it was written.
    bool carry_out(std::vector<Change> changes);
    /// The same with reasons that were given already: only what is not answered yet is asked for.
    bool carry_out(std::vector<Change> changes, const std::vector<Override>& given);
    /// What rules stand against changes for the selected patient, each once.
    std::vector<Objection> objections(const std::vector<Change>& changes);
    bool carry_out_for_clinic(std::vector<Change> changes);
    /// Reads again what came into the log past the desk (empty id: the clinic's), and tells everyone.
    Result<Done> take_up(const std::vector<PatientId>& patients);

    /// How objections are put to the person at the desk: returns the overrides given, or nothing when they
    /// left it. The window sets a dialog; tests set an answer.
    std::function<std::optional<std::vector<Override>>(const std::vector<Objection>&)> ask_overrides;
    /// Proves the passphrase of whoever works here; may take a second, from any thread. Empty where the desk
    /// is not sealed (the demo, a case file).
    std::function<Result<Done>(const std::string& passphrase)> prove;
    /// How faults are shown; the window sets a message panel.
    std::function<void(const Faults&)> show_faults;

    /// The name of whoever wrote an entry; the window sets where it is looked up.
    std::function<QString(const UserId&)> name_of_user;
    QString worker_name(const UserId& user) const;

    /// A rule's sentence and source, in the language of the window.
    QString sentence(const Flag& flag) const;
    /// The same in a few words, for a list: "Supply ends tomorrow".
    QString caption(const Flag& flag) const;
    QString source(const Flag& flag) const;
    QString text(const Fault& fault) const;

  signals:
    void patient_selected(const evenfall::PatientId& patient);
    void record_changed(const evenfall::PatientId& patient);
    void clinic_changed();
    /// Something was written: "Saved".
    void saved();
    /// A page asks to be shown ("course", "plan", "record", "papers", …).
    void page_wanted(const QString& page);

  private:
    bool write(const PatientId& patient, std::vector<Change> changes,
               const std::vector<Override>& given = {});

    Desk desk_;
    Texts texts_;
    std::function<LocalTime()> now_;
    PatientId patient_;
    std::optional<Course> course_;
    Day course_day_{};
};

/// A page of one patient: shows what the workbench has selected, and reads again when told.
class Page : public QWidget {
    Q_OBJECT

  public:
    explicit Page(Workbench& workbench, QWidget* parent = nullptr);
    /// Reads the selected patient's record again and shows it. Called when the page becomes visible or the
    /// record changed while it was; a page that is not visible is not kept up to date.
    virtual void refresh() = 0;
    /// Whether something that the page shows is still being computed.
    virtual bool busy() const { return false; }
    /// Goes to a part of the page by its id, where it has such a part.
    virtual void show_part(const QString& /*part*/) {}

  protected:
    void showEvent(QShowEvent* event) override;
    Workbench& workbench() { return workbench_; }

  private:
    Workbench& workbench_;
    bool stale_ = true;
};

}  // namespace evenfall::ui
