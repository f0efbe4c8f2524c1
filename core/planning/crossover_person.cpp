// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/crossover_person.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <tuple>

#include "units/dose_text.h"

namespace evenfall {

namespace {

/// How the formulary says that a mechanism has no example.
constexpr std::string_view kNoExample = "not applicable";

/// With these an agent that builds up for weeks can sedate or slow the breathing unseen.
constexpr std::array kBornBadlyBy{"older age", "weak liver", "breathing trouble", "falls", "opioid"};

bool has(const RiskScreen& risks, const char* risk) {
    const auto answer = risks.answers.find(risk);
    return answer != risks.answers.end() && answer->second == Answer::yes;
}

/// What was not asked may be.
bool may_be(const RiskScreen& risks, const char* risk) {
    const auto answer = risks.answers.find(risk);
    return answer == risks.answers.end() || answer->second != Answer::no;
}

/// Lower case, letters and digits kept, everything else a space, one at each end.
std::string plain(const std::string& text) {
    std::string out = " ";
    for (const char c : text.substr(0, text.find('('))) {
        const auto byte = static_cast<unsigned char>(c);
        const bool kept = std::isalnum(byte) != 0 || byte >= 0x80;
        if (kept || out.back() != ' ') out += kept ? static_cast<char>(std::tolower(byte)) : ' ';
    }
    return out.back() == ' ' ? out : out + " ";
}

bool named_alike(const std::string& one, const std::string& other) {
    const std::string a = plain(one), b = plain(other);
    constexpr std::size_t kLeast = 5;  // a word of three letters, with the spaces around it
    return a.size() >= kLeast && b.size() >= kLeast &&
           (a.find(b) != std::string::npos || b.find(a) != std::string::npos);
}

std::string hours(double value) {
    return std::to_string(std::lround(value));
}

std::string source_of(const Provenance& provenance, const Formulary& formulary) {
    const auto found = formulary.sources.find(provenance.source);
    const std::string citation =
        found == formulary.sources.end() ? provenance.source : found->second.citation;
    return citation + (provenance.from_memory ? " (from memory)" : "");
}

class Judge {
  public:
    Judge(const Drug& from, const CrossoverPerson& person, const Formulary& formulary, const Rules& rules)
        : from_(from), person_(person), formulary_(formulary), rules_(rules) {}

    SuitedAgent of(const Drug& drug) const {
        SuitedAgent agent;
        agent.drug = drug.name;
        agent.slowest_half_life_h = slowest_half_life_h(drug.kinetics);
        judge_half_life(drug, agent);
        judge_metabolites(drug, agent);
        judge_liver(drug, agent);
        if (drug.hypnotic && !from_.hypnotic)
            agent.speaks_against.push_back({"suits-hypnotic", {{"drug", drug.name}}, {}});
        for (Flag& flag : interactions_with(drug, person_.other_medicines))
            agent.speaks_against.push_back(std::move(flag));
        judge_pieces(drug, agent);
        add_facts(drug, agent);
        return agent;
    }

  private:
    void judge_half_life(const Drug& drug, SuitedAgent& agent) const {
        const double now = slowest_half_life_h(from_.kinetics);
        const Args args{{"drug", drug.name},
                        {"hours", hours(agent.slowest_half_life_h)},
                        {"from", from_.name},
                        {"from_hours", hours(now)}};
        if (agent.slowest_half_life_h >= now * rules_.number("suits-longer", "times"))
            agent.speaks_for.push_back({"suits-longer", args, {}});
        else
            agent.speaks_against.push_back({"suits-not-longer", args, {}});
    }

    /// Every agent that lasts builds up: it speaks against one only where this person may bear that badly.
    void judge_metabolites(const Drug& drug, SuitedAgent& agent) const {
        const bool borne_badly =
            std::ranges::any_of(kBornBadlyBy, [&](const char* risk) { return may_be(person_.risks, risk); });
        auto& said = borne_badly ? agent.speaks_against : agent.known;
        const double long_lived = rules_.number("suits-builds-up", "hours");
        bool active = false;
        for (const Metabolite& each : drug.kinetics.metabolites) {
            if (each.relative_potency <= 0) continue;
            active = true;
            if (each.half_life_h >= long_lived)
                said.push_back(
                    {"suits-builds-up",
                     {{"drug", drug.name}, {"metabolite", each.name}, {"hours", hours(each.half_life_h)}},
                     {}});
        }
        if (!active) agent.speaks_for.push_back({"suits-no-metabolite", {{"drug", drug.name}}, {}});
    }

    /// The finer the pieces, measured as diazepam, the smaller the steps at the end of the taper after it.
    void judge_pieces(const Drug& drug, SuitedAgent& agent) const {
        std::optional<Dose> finest;
        for (const ListedProduct& listed : drug.products) {
            const Product& product = listed.product;
            if (!listed.for_steps || is_liquid(product.form) || is_modified_release(product.form)) continue;
            const int parts = product.cuts == Cuts::quarters ? 4 : product.cuts == Cuts::halves ? 2 : 1;
            const auto piece = product.strength.part(parts);
            if (piece && (!finest || *piece < *finest)) finest = *piece;
        }
        if (!finest) return;
        agent.finest = as_diazepam(*finest, *drug.equivalence).usual;
        agent.known.push_back(
            {drug.name == "diazepam" ? "suits-finest" : "suits-finest-as-diazepam",
             {{"drug", drug.name}, {"piece", print_dose(*finest)}, {"diazepam", print_dose(*agent.finest)}},
             {}});
    }

    void judge_liver(const Drug& drug, SuitedAgent& agent) const {
        const bool slow = has(person_.risks, "weak liver") || has(person_.risks, "older age");
        if (drug.glucuronidated && slow)
            agent.speaks_for.push_back({"suits-glucuronidated", {{"drug", drug.name}}, {}});
        else if (slow)
            agent.speaks_against.push_back({"suits-liver", {{"drug", drug.name}}, {}});
    }

    void add_facts(const Drug& drug, SuitedAgent& agent) const {
        for (const Fact& fact : drug.facts) {
            const bool liver = fact.group == "liver" && has(person_.risks, "weak liver");
            const bool older = fact.group == "older age" && has(person_.risks, "older age");
            if (liver || older)
                agent.known.push_back({"suits-fact",
                                       {{"drug", drug.name},
                                        {"about", fact.label},
                                        {"fact", fact.value},
                                        {"from", source_of(fact.provenance, formulary_)}},
                                       {}});
        }
    }

    const Drug& from_;
    const CrossoverPerson& person_;
    const Formulary& formulary_;
    const Rules& rules_;
};

/// What could harm weighs before what is less handy.
std::ptrdiff_t dangers_of(const SuitedAgent& agent) {
    return std::ranges::count_if(agent.speaks_against, [](const Flag& flag) {
        return flag.rule == "suits-liver" || flag.rule == "crossover-interaction";
    });
}

}  // namespace

std::vector<Flag> interactions_with(const Drug& drug, const std::vector<std::string>& medicines) {
    std::vector<Flag> flags;
    for (const std::string& medicine : medicines)
        for (const Interaction& interaction : drug.interactions)
            if (std::ranges::any_of(interaction.examples, [&](const std::string& example) {
                    return example != kNoExample && named_alike(medicine, example);
                }))
                flags.push_back({"crossover-interaction",
                                 {{"medicine", medicine},
                                  {"drug", drug.name},
                                  {"mechanism", interaction.mechanism},
                                  {"effect", interaction.effect}},
                                 {}});
    return flags;
}

std::vector<Flag> crossover_concerns(const std::string& to, const CrossoverPerson& person,
                                     const Formulary& formulary) {
    const Drug& drug = *formulary.find(to);
    const auto risk = [&](const char* name) { return has(person.risks, name); };
    std::vector<Flag> flags;
    if ((risk("weak liver") || risk("older age")) && !drug.glucuronidated)
        flags.push_back({"crossover-weak-liver", {}, {}});
    if (risk("breathing trouble") && risk("opioid")) flags.push_back({"crossover-breathing-opioid", {}, {}});
    if (risk("breathing trouble")) flags.push_back({"crossover-breathing", {}, {}});
    if (risk("older age") && risk("falls")) flags.push_back({"crossover-older-falls", {}, {}});
    if (risk("opioid")) flags.push_back({"crossover-opioid", {}, {}});
    if (risk("falls")) flags.push_back({"crossover-falls", {}, {}});
    for (Flag& flag : interactions_with(drug, person.other_medicines)) flags.push_back(std::move(flag));
    return flags;
}

bool speaks_against_crossing(const Flag& flag) {
    return flag.rule == "crossover-weak-liver" || flag.rule == "crossover-breathing-opioid" ||
           flag.rule == "crossover-breathing" || flag.rule == "crossover-older-falls";
}

std::vector<SuitedAgent> suited_agents(const std::string& from, const CrossoverPerson& person,
                                       const Formulary& formulary, const Rules& rules) {
    std::vector<SuitedAgent> agents;
    const Drug* now = formulary.find(from);
    if (!now) return agents;
    const Judge judge(*now, person, formulary, rules);
    for (const auto& [name, drug] : formulary.drugs)
        if (name != from && drug.equivalence) agents.push_back(judge.of(drug));
    std::ranges::stable_sort(agents, [](const SuitedAgent& a, const SuitedAgent& b) {
        const auto place = [](const SuitedAgent& agent) {
            return std::tuple(dangers_of(agent), agent.speaks_against.size(),
                              -static_cast<std::ptrdiff_t>(agent.speaks_for.size()), !agent.finest,
                              agent.finest.value_or(Dose()), -agent.slowest_half_life_h, agent.drug);
        };
        return place(a) < place(b);
    });
    return agents;
}

}  // namespace evenfall
