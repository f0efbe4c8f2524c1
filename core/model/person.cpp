// SPDX-License-Identifier: GPL-3.0-or-later
#include "model/person.h"

namespace evenfall {

const std::vector<std::string> kRiskWords = {"withdrawal seizure",
                                             "delirium",
                                             "epilepsy",
                                             "pregnancy",
                                             "breastfeeding",
                                             "alcohol",
                                             "opioid",
                                             "other sedative",
                                             "psychosis",
                                             "suicidality",
                                             "palliative care",
                                             "minor",
                                             "older age",
                                             "weak liver",
                                             "breathing trouble",
                                             "falls",
                                             "lives alone",
                                             "driving work"};

}  // namespace evenfall
