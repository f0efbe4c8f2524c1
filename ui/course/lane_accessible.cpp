// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAccessible>
#include <QAccessibleActionInterface>
#include <QAccessibleWidget>
#include <vector>

#include "course/lane.h"

// A lane is a list; what lies on it are its entries, each with a name, a sentence, a place on the screen and
// a press.

namespace evenfall::ui {
namespace {

class ItemAccessible : public QAccessibleInterface, public QAccessibleActionInterface {
  public:
    ItemAccessible(Lane* lane, std::size_t index) : lane_(lane), index_(index) {}

    bool isValid() const override { return index_ < lane_->items().size(); }
    QObject* object() const override { return nullptr; }
    QWindow* window() const override { return lane_->window()->windowHandle(); }
    QAccessibleInterface* parent() const override { return QAccessible::queryAccessibleInterface(lane_); }
    QAccessibleInterface* child(int) const override { return nullptr; }
    QAccessibleInterface* childAt(int, int) const override { return nullptr; }
    int childCount() const override { return 0; }
    int indexOfChild(const QAccessibleInterface*) const override { return -1; }
    QAccessible::Role role() const override { return QAccessible::ListItem; }

    QString text(QAccessible::Text kind) const override {
        if (!isValid()) return {};
        const LaneItem& item = lane_->items()[index_];
        if (kind == QAccessible::Name) return item.name;
        return kind == QAccessible::Description ? item.says : QString();
    }
    void setText(QAccessible::Text, const QString&) override {}

    QRect rect() const override {
        if (!isValid()) return {};
        const QRect here = lane_->item_rect(index_).toRect();
        return {lane_->mapToGlobal(here.topLeft()), here.size()};
    }

    QAccessible::State state() const override {
        QAccessible::State state;
        state.selectable = true;
        state.selected = lane_->selected() == index_;
        state.invisible = !lane_->isVisible();
        state.offscreen = isValid() && lane_->item_rect(index_).width() <= 0;
        return state;
    }

    void* interface_cast(QAccessible::InterfaceType type) override {
        return type == QAccessible::ActionInterface ? static_cast<QAccessibleActionInterface*>(this)
                                                    : nullptr;
    }
    QStringList actionNames() const override { return {pressAction()}; }
    void doAction(const QString& action) override {
        if (action == pressAction() && isValid()) emit lane_->chosen(index_);
    }
    QStringList keyBindingsForAction(const QString&) const override { return {}; }

  private:
    Lane* lane_;
    std::size_t index_;
};

class LaneAccessible : public QAccessibleWidget {
  public:
    explicit LaneAccessible(Lane* lane) : QAccessibleWidget(lane, QAccessible::List), lane_(lane) {}
    ~LaneAccessible() override {
        for (const QAccessible::Id id : children_) QAccessible::deleteAccessibleInterface(id);
    }

    int childCount() const override { return static_cast<int>(lane_->items().size()); }
    QAccessibleInterface* child(int index) const override {
        if (index < 0 || index >= childCount()) return nullptr;
        while (children_.size() <= static_cast<std::size_t>(index))
            children_.push_back(
                QAccessible::registerAccessibleInterface(new ItemAccessible(lane_, children_.size())));
        return QAccessible::accessibleInterface(children_[static_cast<std::size_t>(index)]);
    }
    int indexOfChild(const QAccessibleInterface* child) const override {
        for (int i = 0; i < static_cast<int>(children_.size()); ++i)
            if (QAccessible::accessibleInterface(children_[static_cast<std::size_t>(i)]) == child) return i;
        return -1;
    }
    QAccessibleInterface* childAt(int x, int y) const override {
        const auto index = lane_->item_at(lane_->mapFromGlobal(QPoint(x, y)));
        return index ? child(static_cast<int>(*index)) : nullptr;
    }

  private:
    Lane* lane_;
    mutable std::vector<QAccessible::Id> children_;
};

QAccessibleInterface* make_interface(const QString& class_name, QObject* object) {
    if (class_name != QLatin1String(Lane::staticMetaObject.className())) return nullptr;
    auto* lane = qobject_cast<Lane*>(object);
    return lane ? new LaneAccessible(lane) : nullptr;
}

}  // namespace

void install_lane_accessibility() {
    static const bool installed = [] {
        QAccessible::installFactory(make_interface);
        return true;
    }();
    Q_UNUSED(installed)
}

}  // namespace evenfall::ui
