// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/papers.h"

#include "papers/common.h"

namespace evenfall::papers {

Result<Document> make_paper(Paper paper, const PaperSource& source, const Texts& texts) {
    const PaperDesk desk = paper_desk(source, texts);
    if (Faults faults = check_source(paper, desk); !faults.empty()) return faults;
    switch (paper) {
        case Paper::schedule:
            return make_schedule(desk);
        case Paper::caution:
            return make_caution(desk);
        case Paper::pharmacy:
            return make_pharmacy(desk);
        case Paper::letter:
            return make_letter(desk);
        case Paper::diary:
            return make_diary(desk);
        case Paper::call:
            return make_call_guide(desk);
        case Paper::card:
            return make_card(desk);
        case Paper::report:
            return make_report(desk);
    }
    return Fault{"paper-no-plan", "paper", {{"date", desk.say.date(source.as_of)}}};
}

}  // namespace evenfall::papers
