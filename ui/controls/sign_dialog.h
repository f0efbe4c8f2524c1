// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/messages.h"

namespace evenfall::ui {

class Label;
class Task;

/// One thing that a signature covers: a step with its date and dose, and how it is made up.
struct SignLine {
    QString heading;
    QStringList details;
};

/// What is put to a prescriber before a signature.
struct SignRequest {
    QString question;                   ///< "Sign the step to 2.25 mg a day?"
    QString consequence;                ///< what follows, and that it cannot be taken back
    QString commit;                     ///< what the button says
    std::vector<SignLine> lines;        ///< everything that is signed
    std::vector<Objection> objections;  ///< each needs a reason
};

/// Signing: names the person and all that is signed, asks a reason for each rule that stands against it, and
/// the prescriber's passphrase where the desk is sealed. Focus never begins on the button that signs. The
/// passphrase is proved off the window's thread.
class SignDialog : public QuietDialog {
    Q_OBJECT
  public:
    SignDialog(Workbench& workbench, const SignRequest& request, QWidget* parent = nullptr);
    ~SignDialog() override;

    /// The reasons in the order of the objections.
    std::vector<Override> overrides() const;
    /// Nothing where it was left unsigned.
    static std::optional<std::vector<Override>> ask(Workbench& workbench, const SignRequest& request,
                                                    QWidget* parent);

  private:
    void add_person();
    void add_lines(QVBoxLayout& column, const SignRequest& request);
    void add_objections(QVBoxLayout& column, const SignRequest& request);
    void add_proof();
    void judge();
    void commit();
    void judge_proof(const Result<Done>& proved);

    Workbench& workbench_;
    QString commit_text_;
    std::size_t least_letters_;
    std::vector<std::pair<std::string, QLineEdit*>> reasons_;
    QPushButton* commit_ = nullptr;
    QPushButton* leave_ = nullptr;
    QLineEdit* passphrase_ = nullptr;
    Label* fault_ = nullptr;
    Task* task_;
};

}  // namespace evenfall::ui
