// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QTimer>
#include <map>

#include "casework/call.h"
#include "checkin/typed_beside.h"
#include "shell/workbench.h"

class QGridLayout;
class QLineEdit;
class QPlainTextEdit;
class QScrollArea;
class QVBoxLayout;

namespace evenfall::ui {

class Card;
class DangerCard;
class DangerQuestions;
class DayEdit;
class DayStrip;
class FormsCard;
class Label;
class OlderCallCard;
class ResponseCard;
class ScoreCell;
class WholeCard;

/// A call, top to bottom in the order of the talk. Every answer is put into a sealed draft at once, so that
/// it can be stopped and taken up again, and closing, covering or choosing another person loses nothing; a
/// danger goes into the record at once.
class CallPage : public Page {
    Q_OBJECT
  public:
    explicit CallPage(Workbench& workbench, QWidget* parent = nullptr);
    ~CallPage() override;
    void refresh() override;
    void show_part(const QString& part) override;

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    static constexpr const char* kDraft = "check-in";  ///< the kind of an unfinished call

    QWidget* make_head();
    void make_talk();
    void make_foot();
    void add_line(QVBoxLayout& column, const char* question, const QString& name);
    void connect_cards();
    void take_up();
    bool is_of_another_day();
    void go_on_today();
    void keep_its_day();
    void show_older();
    void show_asks();
    void show_head();
    void show_scores(const std::vector<std::string>& items, QGridLayout& grid, bool function,
                     std::vector<ScoreCell*>& cells);
    void show_counts();
    void fill_words();
    void answer_danger(const QString& question, const QString& answer);
    void take_danger_back(const std::string& question, const EventId& entry);
    void no_answer();
    void touch();
    void set_aside_words_of_that_day();
    void tell_draft(const QString& words);
    void keep();
    void save();
    void begin_anew();
    void start_over();
    void order_focus();
    void tell_open();

    QScrollArea* scroll_;
    QVBoxLayout* talk_;
    Label *who_, *when_, *draft_;
    OlderCallCard* older_;
    DangerCard* danger_;
    DayStrip* strip_;
    Label* strip_words_;
    QGridLayout *symptom_grid_, *function_grid_, *count_grid_;
    std::vector<ScoreCell*> symptoms_, functions_;
    std::map<std::string, QLineEdit*> counts_;
    DangerQuestions* questions_;
    Label* open_;
    std::map<std::string, QLineEdit*> lines_;
    QPlainTextEdit* own_words_;
    DayEdit* next_;
    Card* asks_back_;
    FormsCard* forms_;
    WholeCard* whole_;
    ResponseCard* response_;
    TypedBeside beside_;
    /// Typed of a danger on the day of an older call: kept and shown, and not put into today's fields.
    TypedFields set_aside_;
    static constexpr std::string_view kSetAside = "set aside/";
    QTimer typing_;

    PatientId shown_;
    CallForm form_;
    CallAsks asks_;
    QPointer<QWidget> resume_;  ///< where the talk goes on after a danger was seen to
    bool filling_ = false;
    std::string kept_;       ///< the draft as it was put away; empty: none is
    bool day_kept_ = false;  ///< a call of an earlier day keeps its day
    bool asked_back_ = false;
};

}  // namespace evenfall::ui
