// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "papers/papers.h"
#include "papers/steps.h"
#include "papers/wording.h"

namespace evenfall::papers {

/// What every paper is made with.
struct PaperDesk {
    const PaperSource& source;
    Wording say;
    std::vector<FirmStep> steps;
    std::string drug;  ///< the plan's agent, or the first of the regimen; empty where there is none
    std::string code;

    std::string agent() const { return say.agent(drug); }
};

PaperDesk paper_desk(const PaperSource& source, const Texts& texts);

/// Title, patient, footer; no blocks yet.
Document begin(Paper paper, const PaperDesk& desk, std::string title, std::string subtitle);

void add(Document& document, Content content, bool with_next = false);

/// The prescriber's lines: what is known of them is printed, a licence that was never entered has no line.
Signature prescriber_lines(const PaperDesk& desk, std::string statement);

/// The mark of the signed version; nothing where no plan is signed.
std::optional<Mark> version_mark(const PaperDesk& desk);

/// The heading and the numbers for every hour; the same to stand beside something else.
Side whom_to_call(const PaperDesk& desk);
void add_whom_to_call(Document& document, const PaperDesk& desk);

/// The doses of the day of issue in words, with the pieces that make each, as far as they are known.
std::vector<std::string> made_doses_in_words(const PaperDesk& desk);
/// The other medicines, in the reader's language where their names are known.
std::vector<std::string> medicines_in_words(const PaperDesk& desk);
/// How much is said of a changed dose: its amount, or what makes it too.
enum class Told { amount, pieces };
/// What a step changes, a line for each dose: "Morning 08:00: 0.75 mg (was 0.875 mg)".
std::vector<std::string> changes_in_words(const PaperDesk& desk, const FirmStep& step,
                                          Told told = Told::amount);

/// Where doses are made of, in words for whom.
enum class ForWhom {
    patient,  ///< pieces only where all of them were counted at home: what else they have is not known
    pharmacy  ///< pieces wherever known products make the dose, and said where none does
};

/// Whether a step's dose is held since before the day of issue: nothing of it changes now.
bool stays_as_it_is(const PaperDesk& desk, const FirmStep& step);

/// That the dose is held, from when and until which review, for those who look after the person; that the
/// review is overdue. Empty where nothing is held.
std::string hold_in_words(const PaperDesk& desk);
/// The text for a hold that runs, or for one that is to begin later ("<id>-from").
std::string told_hold(const PaperDesk& desk, const std::string& id);

/// Whether the first step lies ahead, so that doses from before the plan are still taken.
bool starts_later(const PaperDesk& desk);

/// What is taken from the day of issue until the first step, where that is still to come.
void add_until_start(Document& document, const PaperDesk& desk, std::string_view says, ForWhom whom);

/// What is taken on the day of issue, by agent, in the order of the first dose; empty where nothing is known.
Regimen regimen_on_issue(const PaperSource& source);
/// Whether nothing is taken on the day of issue: the person has come off.
bool takes_nothing(const PaperDesk& desk);
std::vector<std::pair<std::string, Dose>> daily_amounts(const Regimen& regimen);
/// "clonazepam 2.5 mg a day", one for each agent.
std::string daily_in_words(const PaperDesk& desk, const Regimen& regimen);

/// Every danger that was reported and is not over, in words: "seizure (reported 18 Dec 2026)".
std::vector<std::string> dangers_in_words(const PaperDesk& desk);
/// Whether the risk screen says so, or a danger of the same kind was reported and is not over: a seizure, a
/// pregnancy. `risk` is a word of the risk screen.
bool is_at_risk(const PaperDesk& desk, const std::string& risk);
/// Whether a new opioid or sedative was reported, and nobody has seen to it.
bool reports_new_sedative(const PaperDesk& desk);
/// A word of the risk screen as papers say it.
std::string risk_in_words(const PaperDesk& desk, const std::string& risk);

/// The agents of the days that a paper covers, in the order in which they are taken before the plan; where
/// no plan is in force, those that are taken now.
std::vector<std::string> agents_on_sheet(const PaperDesk& desk);
/// "alprazolam and diazepam".
std::string in_one_phrase(const PaperDesk& desk, const std::vector<std::string>& agents);
std::string agents_in_words(const PaperDesk& desk);
/// A product as the pharmacy names it, with its agent where the paper covers several.
std::string dispensed_in_words(const PaperDesk& desk, const Product& product);
/// A line for each agent of the sheet's pieces: the agent, and its products. For the pharmacy those that are
/// dispensed or taken before the first step too, by the pharmacy's names.
std::vector<std::pair<std::string, std::string>> products_by_agent(const PaperDesk& desk, ForWhom whom);
/// Every product of these steps, and for the pharmacy what is dispensed or taken before them.
std::set<Product> products_of(const PaperDesk& desk, ForWhom whom);

/// The table of steps, one row each, for whoever compares: the cut, dose times, the day's sum.
Table step_table(const PaperDesk& desk);

/// The cell of a step at a dose time. `first_day`: changes are marked.
Cell dose_cell(const PaperDesk& desk, const FirmStep& step, ClockTime at, bool first_day);
/// The same with the amount alone in place of words, for a row under a leading row that has them.
Cell brief_cell(const PaperDesk& desk, const FirmStep& step, ClockTime at, bool first_day);
/// Whether drawings with their amount cannot be mistaken: no agent of the step comes from two products that
/// are drawn alike. Two strengths of one shape are told apart by the strength in their drawing.
bool brief_is_clear(const PaperDesk& desk, const Step& step);
/// The amount of the day by agent, in the order in which they are taken.
std::vector<std::pair<std::string, Dose>> sums_of(const Step& step);
/// "2.375 mg in all", for each agent.
Cell sum_cell(const PaperDesk& desk, const Step& step);
bool several_agents(const PaperDesk& desk);

/// A paper's rooms: one function each.
Document make_schedule(const PaperDesk& desk);
Document make_caution(const PaperDesk& desk);
Document make_pharmacy(const PaperDesk& desk);
Document make_letter(const PaperDesk& desk);
Document make_diary(const PaperDesk& desk);
Document make_call_guide(const PaperDesk& desk);
Document make_card(const PaperDesk& desk);
Document make_report(const PaperDesk& desk);

/// What stands against making a paper.
Faults check_source(Paper paper, const PaperDesk& desk);

}  // namespace evenfall::papers
