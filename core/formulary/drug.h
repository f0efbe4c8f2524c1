// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "model/product.h"
#include "units/dose.h"

namespace evenfall {

/// Where a value comes from. `from_memory` values were not confirmed against an opened page and say so
/// wherever they are shown.
struct Provenance {
    std::string source;  ///< key of Formulary::sources
    bool from_memory = false;
    std::string note;  ///< what the value does and does not cover; may be empty

    bool operator==(const Provenance&) const = default;
};

/// A published work.
struct Source {
    std::string id, citation, address, date, kind, note;

    bool operator==(const Source&) const = default;
};

/// A published figure for the milligrams of an agent equal to 10 mg of diazepam by mouth. One figure has
/// low == high; a printed range has both ends. All positive.
struct PublishedEquivalence {
    Dose low;
    Dose high;
    std::string as_printed;  ///< how the source prints it, where that differs
    std::string kind;        ///< "equivalence table", "threshold footnote", …
    Provenance provenance;

    bool operator==(const PublishedEquivalence&) const = default;
};

/// Milligrams of the agent equal to 10 mg of diazepam. The ends are named by their outcome: the *larger*
/// figure gives the least diazepam. most_diazepam <= usual <= least_diazepam.
struct Equivalence {
    Dose usual;
    Dose least_diazepam;
    Dose most_diazepam;
    std::string usual_source;  ///< the source that the usual value was taken from, and why
    std::vector<PublishedEquivalence> published;

    bool operator==(const Equivalence&) const = default;
};

/// An active metabolite of the kinetic model.
struct Metabolite {
    std::string name;
    std::string from;            ///< the parent's or another metabolite's name
    double formed_fraction = 1;  ///< of what leaves `from`, in parent-equivalents; 0 to 1
    double half_life_h = 0;      ///< > 0
    double half_life_low_h = 0;  ///< published range; both ends > 0
    double half_life_high_h = 0;
    double relative_potency = 0;  ///< per parent-equivalent mg; 0 and up
    Provenance provenance;

    bool operator==(const Metabolite&) const = default;
};

/// Exchange with the tissues, 1/h, both > 0.
struct Distribution {
    double to_tissue_per_h = 0;
    double back_per_h = 0;

    bool operator==(const Distribution&) const = default;
};

/// The constants of the linear model (maths: depot → parent (with tissue) → metabolites). Half-lives in
/// hours.
struct Kinetics {
    double absorption_half_life_h = 0;  ///< > 0
    double lag_h = 0;                   ///< 0 and up
    double half_life_h = 0;             ///< terminal, > 0
    double half_life_low_h = 0;
    double half_life_high_h = 0;
    double bioavailability = 1;  ///< above 0, at most 1
    std::optional<Distribution> distribution;
    std::vector<Metabolite> metabolites;           ///< at most 3; each after the one it is formed from
    std::map<std::string, Provenance> provenance;  ///< by field name

    bool operator==(const Kinetics&) const = default;
};

/// What another medicine or condition does to the agent.
struct Interaction {
    std::string mechanism, effect;
    std::vector<std::string> examples;
    Provenance provenance;

    bool operator==(const Interaction&) const = default;
};

/// How a dose times range is used by the agent, within waking hours.
struct DosesPerDay {
    int usual_low = 1;
    int usual_high = 1;
    int most = 1;
    Provenance provenance;

    bool operator==(const DosesPerDay&) const = default;
};

/// One row of the drug's reference page: "Half-life, mean", "39 h", and where it comes from.
struct Fact {
    std::string group;  ///< "kinetics", "dosing", "liver", "older age", "urine screen", "codes", …
    std::string label;
    std::string value;  ///< with its unit
    Provenance provenance;

    bool operator==(const Fact&) const = default;
};

/// A product of the formulary with where its strength, scoring and cutting come from.
struct ListedProduct {
    Product product;
    Provenance strength;  ///< of the strength
    std::string scored;   ///< what is known of its score
    std::string cutting;  ///< what is known of cutting it
    Provenance cutting_provenance;
    std::string device;     ///< for a liquid: its measuring device and shelf life after opening
    bool for_steps = true;  ///< false: a combination product, or one not to be used for dose steps
    std::string code;       ///< RxNorm product code; may be empty

    bool operator==(const ListedProduct&) const = default;
};

/// An agent.
struct Drug {
    std::string name;             ///< generic, lower case
    std::string drug_class;       ///< "benzodiazepine" or "z-drug"
    bool hypnotic = false;        ///< taken at night only; never proposed by day
    bool glucuronidated = false;  ///< cleared by glucuronidation alone
    std::vector<ListedProduct> products;
    std::optional<Equivalence> equivalence;
    Kinetics kinetics;
    DosesPerDay doses_per_day;
    Dose label_maximum;            ///< per day; zero where none is known
    std::string missed_dose_rule;  ///< id in the paper texts: what to do when a dose is forgotten
    std::vector<Interaction> interactions;
    std::vector<Fact> facts;  ///< the reference page

    bool operator==(const Drug&) const = default;
};

}  // namespace evenfall
