// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QWidget>
#include <map>
#include <string>
#include <vector>

namespace evenfall::ui {

/// Fields by name with what stands in them.
using TypedFields = std::map<std::string, std::string>;

/// What somebody typed into the cards beside the talk and did not write down yet: what their fields hold
/// other than what the program filled in. It goes into the call's draft, so that closing loses none of it.
class TypedBeside {
  public:
    explicit TypedBeside(std::vector<QWidget*> cards);

    TypedFields unwritten() const;
    bool holds(const QWidget* field) const;
    /// Takes what stands in these fields of the cards, or in the fields inside them, for what the program
    /// filled in: it is in the record. What was typed beside them stays unwritten.
    void filled(const std::vector<QWidget*>& written);
    void filled();
    /// Puts typed words back. Names that no field has are passed over.
    void put_back(const TypedFields& fields);

  private:
    struct Watched {
        QWidget* card = nullptr;
        TypedFields filled;
    };
    std::vector<Watched> cards_;
};

}  // namespace evenfall::ui
