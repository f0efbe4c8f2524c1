// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "shell/unlock.h"

namespace evenfall::ui {

/// The step by which a new laptop joins a clinic: an exchange file of another laptop, and a user that the
/// clinic has already.
class JoinStep : public UnlockStep {
    Q_OBJECT
  public:
    explicit JoinStep(QWidget* parent = nullptr);

    std::filesystem::path exchange() const;
    std::string user() const;
    std::string passphrase() const;
    void forget_passphrase();
    QLineEdit* first_field() const { return file_; }

  private:
    void choose();

    QLineEdit *file_, *user_, *passphrase_;
};

}  // namespace evenfall::ui
