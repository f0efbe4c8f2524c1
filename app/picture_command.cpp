// SPDX-License-Identifier: GPL-3.0-or-later
#include <QApplication>

#include "app/case_desk.h"
#include "app/commands.h"
#include "app/options.h"
#include "app/picture.h"
#include "app/window.h"
#include "shell/caseload_pane.h"
#include "theme/theme.h"

namespace evenfall::app {
namespace {

constexpr int kLeastSide = 200;
constexpr int kMostSide = 8000;
constexpr double kMostScale = 8;

std::optional<ui::ThemeKind> theme_named(const QString& name) {
    if (name == QStringLiteral("light")) return ui::ThemeKind::light;
    if (name == QStringLiteral("dark")) return ui::ThemeKind::dark;
    if (name == QStringLiteral("contrast")) return ui::ThemeKind::contrast;
    return std::nullopt;
}

QStringList view_names() {
    QStringList names;
    for (const ui::PageMaker& maker : all_pages()) names << maker.id;
    return names << QStringLiteral("caseload");
}

std::optional<PictureOptions> sizes(const Options& options) {
    PictureOptions picture;
    bool width_ok = false;
    bool height_ok = false;
    bool scale_ok = false;
    picture.width = options.of(QStringLiteral("width")).toInt(&width_ok);
    picture.height = options.of(QStringLiteral("height")).toInt(&height_ok);
    picture.scale = options.of(QStringLiteral("scale")).toDouble(&scale_ok);
    picture.replace = options.has(QStringLiteral("replace"));
    const auto side = [](int value) { return value >= kLeastSide && value <= kMostSide; };
    if (!width_ok || !height_ok || !scale_ok || !side(picture.width) || !side(picture.height) ||
        !(picture.scale >= 0.5) || picture.scale > kMostScale)
        return std::nullopt;
    return picture;
}

void describe(Options& options) {
    options.value(QStringLiteral("view"), QStringLiteral("The view."), QStringLiteral("view"));
    options.value(QStringLiteral("out"), QStringLiteral("The file to write."), QStringLiteral("file"));
    options.value(QStringLiteral("width"), QStringLiteral("Width in pixels at scale 1."),
                  QStringLiteral("px"), QStringLiteral("1440"));
    options.value(QStringLiteral("height"), QStringLiteral("Height in pixels at scale 1."),
                  QStringLiteral("px"), QStringLiteral("900"));
    options.value(QStringLiteral("scale"), QStringLiteral("0.5 to 8."), QStringLiteral("n"),
                  QStringLiteral("1"));
    options.value(QStringLiteral("theme"), QStringLiteral("light, dark or contrast."),
                  QStringLiteral("theme"), QStringLiteral("light"));
    options.flag(QStringLiteral("replace"), QStringLiteral("Write over a file that is there."));
    options.add_store_access();
}

}  // namespace

Exit picture_command(const QStringList& words) {
    Options options(QStringLiteral("evenfall picture CASE --view VIEW --out FILE"),
                    QStringLiteral("Writes a picture of a view as PNG or SVG, by the file's ending. VIEW: ") +
                        view_names().join(QStringLiteral(", ")));
    describe(options);
    if (const auto leave = options.read(words, 1, 1)) return *leave;
    const QString view = options.of(QStringLiteral("view"));
    const QString out = options.of(QStringLiteral("out"));
    const auto theme = theme_named(options.of(QStringLiteral("theme")));
    const auto picture = sizes(options);
    if (!view_names().contains(view))
        return Options::wrong(QStringLiteral("--view is one of: ") + view_names().join(QStringLiteral(", ")));
    if (out.isEmpty()) return Options::wrong(QStringLiteral("--out names the file to write"));
    if (!theme) return Options::wrong(QStringLiteral("--theme is light, dark or contrast"));
    if (!picture)
        return Options::wrong(QStringLiteral("--width and --height are 200 to 8000, --scale is 0.5 to 8"));

    const auto resources = load_resources();
    if (!resources) return Exit::our_fault;
    Exit exit = Exit::done;
    const auto source =
        read_source(options.rest().at(0).toStdString(), options.store_access(), *resources, exit);
    if (!source) return exit;
    auto lying = desk_of_case(*source, *resources);
    if (!lying) {
        print_faults(lying.faults(), resources->texts);
        return Exit::input_wrong;
    }
    prepare_application();
    ui::apply_theme(*qApp, *theme);
    const LocalTime as_of = source->given.as_of;
    Workplace place(std::move(lying->desk), resources->texts, [as_of] { return as_of; });
    place.workbench().select(lying->patient);
    QWidget* shown = &place.window();
    if (view != QStringLiteral("caseload")) place.window().show_page(view);
    const auto saved = save_picture(*shown, out, *picture);
    if (saved) return Exit::done;
    print_faults(saved.faults(), resources->texts);
    return Exit::input_wrong;
}

}  // namespace evenfall::app
