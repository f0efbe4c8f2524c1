// SPDX-License-Identifier: GPL-3.0-or-later
#include "trust/exchange_card.h"

#include <fstream>

#include "record/changes.h"
#include "store/exchange_file.h"
#include "theme/theme.h"
#include "ui/support/walk.h"
#include "ui/trust/trust_fixture.h"

// Two laptops that meet by files chosen in the window.

namespace evenfall::ui {
namespace {

class ExchangeCardTest : public TrustTest {
  protected:
    /// Writes an exchange file in the window; whether it came about.
    bool write(const std::string& name) {
        QSignalSpy written(&window->exchange(), &ExchangeCard::written);
        window->exchange().write_to(folder_path() / name);
        return QTest::qWaitFor([&] { return !written.isEmpty(); });
    }
    /// The other laptop's store, joined from an exchange file.
    Store other(const std::string& name = "other") {
        if (!write("stick/to-other")) throw std::runtime_error("not written");
        StoreOptions options;
        options.kdf = crypto::Kdf::least();
        auto joined = join_clinic(folder_path() / name, folder_path() / "stick" / "to-other", "Mara Keel",
                                  kPassphrase, options);
        if (!joined) throw std::runtime_error(joined.faults().front().id);
        return std::move(*joined);
    }
    void add(Store& to, const PatientId& whose, const Change& change) {
        ASSERT_TRUE(to.append({write_change({}, whose, change)}).ok());
    }
    std::filesystem::path carry(Store& from) {
        const std::filesystem::path stick = folder_path() / "stick" / "to-here";
        if (!write_exchange(from, stick, true)) throw std::runtime_error("not carried");
        return stick;
    }
    static PlanCommitted plan() {
        PlanCommitted made;
        made.plan.request.drug = "diazepam";
        return made;
    }
};

}  // namespace

TEST_F(ExchangeCardTest, TakesInWhatTheOtherLaptopWroteAndTellsTheWindow) {
    Store laptop = other();
    EXPECT_TRUE(shown().contains(QStringLiteral("Written and proved")));
    Person fresh;
    fresh.name = "Ada Ferrow";
    fresh.reference = "0500";
    add(laptop, PatientId(32, 'd'), fresh);
    add(laptop, patient, NoteAdded{"slept well"});
    workbench->select(patient);
    QSignalSpy changed(workbench.get(), &Workbench::record_changed);
    const std::filesystem::path stick = carry(laptop);
    window->exchange().take_in(stick);
    EXPECT_TRUE(shown().contains(QStringLiteral("Records that changed: 2."))) << shown().toStdString();
    EXPECT_EQ(workbench->desk().patients().size(), 2U);
    EXPECT_EQ(workbench->record()->notes.size(), 1U);
    EXPECT_EQ(changed.size(), 1);
    EXPECT_FALSE(shown().contains(QStringLiteral("To be settled")));
    window->exchange().take_in(stick);
    EXPECT_TRUE(shown().contains(QStringLiteral("Nothing new")));
}

TEST_F(ExchangeCardTest, ShowsWhatAPersonMustSettleWithTheWayThere) {
    Store laptop = other();
    CheckIn call;
    call.at = workbench->now();
    add(*store, patient, plan());
    add(*store, patient, call);
    ASSERT_TRUE(workbench->take_up({patient}).ok());
    add(laptop, patient, plan());
    add(laptop, patient, call);
    window->exchange().take_in(carry(laptop));
    window->show();
    EXPECT_TRUE(shown().contains(QStringLiteral("To be settled by a person")));
    EXPECT_TRUE(shown().contains(QStringLiteral("0417: Two laptops each signed a plan")));
    EXPECT_TRUE(shown().contains(QStringLiteral("0417: A call of")));
    EXPECT_EQ(nameless(*window).join(u';').toStdString(), "");
    EXPECT_EQ(cut_off(*window).join(u';').toStdString(), "");
    const auto acts = next_acts(*workbench->desk().record(patient).value(), workbench->course(),
                                workbench->desk().ground(), workbench->now());
    for (const char* rule : {"plans-conflict", "call-twice"}) {
        const auto act = std::ranges::find_if(
            acts, [rule](const NextAct& each) { return each.why.rule == std::string(rule); });
        ASSERT_NE(act, acts.end()) << rule;
        EXPECT_EQ(act->act, NextAct::Act::settle_entries) << rule;
    }
    QTest::mouseClick(button(window->exchange(), "Open"), Qt::LeftButton);
    EXPECT_EQ(workbench->patient(), patient) << "the main window shows whom it is about";
    const QString at = qEnvironmentVariable("EVENFALL_PICTURES");
    if (at.isEmpty()) return;
    const ThemeKind before = theme_in_force();
    for (const auto& [theme, name] : {std::pair{ThemeKind::light, "light"},
                                      {ThemeKind::dark, "dark"},
                                      {ThemeKind::contrast, "contrast"}}) {
        apply_theme(*qApp, theme);
        window->resize(880, 2700);
        QTest::qWait(20);
        window->grab().save(at + QStringLiteral("/exchange-%1.png").arg(QLatin1String(name)));
    }
    apply_theme(*qApp, before);
}

TEST_F(ExchangeCardTest, ShowsAForkAndKeepsBothStories) {
    // The other laptop's file is copied raw and comes back: two copies then wrote one log.
    {
        Store laptop = other("two");
        add(laptop, patient, NoteAdded{"start of its log"});
    }
    const std::string raw = (folder_path() / "two").string();
    StoreOptions options;
    options.kdf = crypto::Kdf::least();
    const auto open = [&] { return *Store::open(raw, "Mara Keel", kPassphrase, options); };
    const auto read = [](const std::string& from_file) {
        std::ifstream from(from_file, std::ios::binary);
        return std::string(std::istreambuf_iterator<char>(from), {});
    };
    const std::string before = read(raw);
    {
        Store laptop = open();
        add(laptop, patient, NoteAdded{"one story"});
        window->exchange().take_in(carry(laptop));
    }
    std::ofstream(raw, std::ios::binary | std::ios::trunc) << before;
    Store laptop = open();
    add(laptop, patient, NoteAdded{"another story"});
    window->exchange().take_in(carry(laptop));
    EXPECT_TRUE(shown().contains(QStringLiteral("Two stories of one log"))) << shown().toStdString();
    EXPECT_TRUE(shown().contains(QStringLiteral("0417: entries of the other story: 1")));
    workbench->select(patient);
    EXPECT_EQ(workbench->record()->notes.back().value.text, "one story");
}

TEST_F(ExchangeCardTest, AFileThatIsNoneIsRefusedInWords) {
    std::ofstream(folder_path() / "letter") << "somebody's letter";
    window->exchange().take_in(folder_path() / "letter");
    EXPECT_TRUE(shown().contains(QStringLiteral("not a store of this program"))) << shown().toStdString();
    window->exchange().write_to(folder_path() / "pulled-out" / "file");
    EXPECT_TRUE(shown().contains(QStringLiteral("This folder does not exist"))) << shown().toStdString();
}

}  // namespace evenfall::ui
