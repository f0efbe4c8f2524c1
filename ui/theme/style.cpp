// SPDX-License-Identifier: GPL-3.0-or-later
#include "theme/style.h"

#include <QAbstractItemView>
#include <QPushButton>
#include <QTabBar>
#include <algorithm>

#include "theme/paint_parts.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

template <class Option>
const Option* as(const QStyleOption* option) {
    return qstyleoption_cast<const Option*>(option);
}

/// A slider is never shorter than this, however long the page.
constexpr int kShortestHandle = 28;

QRect handle_of(const QStyleOptionSlider& bar) {
    const bool lying = bar.orientation == Qt::Horizontal;
    const int length = lying ? bar.rect.width() : bar.rect.height();
    const qint64 range = static_cast<qint64>(bar.maximum) - bar.minimum;
    if (range <= 0) return bar.rect;
    const int handle =
        std::clamp(static_cast<int>(static_cast<qint64>(length) * bar.pageStep / (range + bar.pageStep)),
                   std::min(kShortestHandle, length), length);
    const int at = QStyle::sliderPositionFromValue(bar.minimum, bar.maximum, bar.sliderPosition,
                                                   length - handle, bar.upsideDown);
    return lying ? QRect(bar.rect.x() + at, bar.rect.y(), handle, bar.rect.height())
                 : QRect(bar.rect.x(), bar.rect.y() + at, bar.rect.width(), handle);
}

QRect scroll_part(const QStyleOptionSlider& bar, QStyle::SubControl part) {
    const QRect handle = handle_of(bar);
    const bool lying = bar.orientation == Qt::Horizontal;
    switch (part) {
        case QStyle::SC_ScrollBarSlider:
            return handle;
        case QStyle::SC_ScrollBarGroove:
            return bar.rect;
        case QStyle::SC_ScrollBarSubPage:
            return lying
                       ? QRect(bar.rect.topLeft(), QSize(handle.left() - bar.rect.left(), bar.rect.height()))
                       : QRect(bar.rect.topLeft(), QSize(bar.rect.width(), handle.top() - bar.rect.top()));
        case QStyle::SC_ScrollBarAddPage:
            return lying ? QRect(handle.right() + 1, bar.rect.y(), bar.rect.right() - handle.right(),
                                 bar.rect.height())
                         : QRect(bar.rect.x(), handle.bottom() + 1, bar.rect.width(),
                                 bar.rect.bottom() - handle.bottom());
        default:
            return {};
    }
}

void draw_combo(const QProxyStyle& style, QPainter& painter, const QStyleOptionComboBox& box,
                const QWidget* widget) {
    draw_field(painter, box, widget);
    const QRect arrow = style.subControlRect(QStyle::CC_ComboBox, &box, QStyle::SC_ComboBoxArrow, widget);
    draw_chevron(painter, arrow, Qt::DownArrow,
                 tone(box.state.testFlag(QStyle::State_Enabled) ? Tone::soft_ink : Tone::disabled_ink));
}

}  // namespace

Style::Style() : QProxyStyle(QStringLiteral("Fusion")) {
}

void Style::drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                          const QWidget* widget) const {
    switch (element) {
        case PE_PanelButtonCommand:
        case PE_PanelButtonTool:
            return draw_button(*painter, *option, widget);
        case PE_FrameLineEdit:
            return draw_field(*painter, *option, widget);
        case PE_PanelLineEdit:
            if (const auto* frame = as<QStyleOptionFrame>(option); frame && frame->lineWidth > 0)
                draw_field(*painter, *option, widget);
            return;
        case PE_FrameFocusRect:
            if (!qobject_cast<const QPushButton*>(widget) && !qobject_cast<const QTabBar*>(widget))
                draw_focus_ring(*painter, QRectF(option->rect));
            return;
        case PE_IndicatorCheckBox:
        case PE_IndicatorItemViewItemCheck:
            return draw_check_box(*painter, *option);
        case PE_IndicatorRadioButton:
            return draw_radio(*painter, *option);
        case PE_Frame:
            return draw_frame(*painter, *option, widget);
        case PE_PanelItemViewItem:
            if (const auto* row = as<QStyleOptionViewItem>(option)) return draw_row(*painter, *row);
            return;
        case PE_PanelItemViewRow:
        case PE_FrameTabWidget:
        case PE_FrameTabBarBase:
        case PE_FrameStatusBarItem:
        case PE_PanelStatusBar:
            return;
        case PE_PanelTipLabel:
            return painter->fillRect(option->rect, tone(Tone::ink));
        case PE_IndicatorArrowDown:
            return draw_chevron(*painter, option->rect, Qt::DownArrow, tone(Tone::soft_ink));
        case PE_IndicatorArrowUp:
            return draw_chevron(*painter, option->rect, Qt::UpArrow, tone(Tone::soft_ink));
        default:
            QProxyStyle::drawPrimitive(element, option, painter, widget);
    }
}

void Style::drawControl(ControlElement element, const QStyleOption* option, QPainter* painter,
                        const QWidget* widget) const {
    if (const auto* button = as<QStyleOptionButton>(option); button && element == CE_PushButtonLabel) {
        QStyleOptionButton copy = *button;
        copy.palette.setColor(QPalette::ButtonText, button_ink(*option, widget));
        return QProxyStyle::drawControl(element, &copy, painter, widget);
    }
    if (const auto* tab = as<QStyleOptionTab>(option)) {
        if (element == CE_TabBarTabShape) return draw_tab(*painter, *tab);
        if (element == CE_TabBarTabLabel) return draw_tab_words(*painter, *tab);
    }
    if (const auto* header = as<QStyleOptionHeader>(option)) {
        if (element == CE_HeaderSection || element == CE_HeaderEmptyArea)
            return draw_header(*painter, *header);
        if (element == CE_HeaderLabel) return draw_header_words(*painter, *header);
    }
    if (const auto* row = as<QStyleOptionViewItem>(option); row && element == CE_ItemViewItem) {
        QStyleOptionViewItem copy = *row;
        copy.palette.setColor(QPalette::HighlightedText, tone(Tone::ink));
        return QProxyStyle::drawControl(element, &copy, painter, widget);
    }
    if (const auto* bar = as<QStyleOptionProgressBar>(option); bar && element == CE_ProgressBar)
        return draw_progress(*painter, *bar);
    QProxyStyle::drawControl(element, option, painter, widget);
}

void Style::drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
                               const QWidget* widget) const {
    if (const auto* bar = as<QStyleOptionSlider>(option); bar && control == CC_ScrollBar)
        return draw_scroll_bar(*painter, *bar, QRectF(handle_of(*bar)));
    if (const auto* box = as<QStyleOptionComboBox>(option); box && control == CC_ComboBox)
        return draw_combo(*this, *painter, *box, widget);
    QProxyStyle::drawComplexControl(control, option, painter, widget);
}

QRect Style::subControlRect(ComplexControl control, const QStyleOptionComplex* option, SubControl part,
                            const QWidget* widget) const {
    if (const auto* bar = as<QStyleOptionSlider>(option); bar && control == CC_ScrollBar)
        return visualRect(bar->direction, bar->rect, scroll_part(*bar, part));
    if (control == CC_ComboBox) {
        const QRect whole = option->rect;
        if (part == SC_ComboBoxArrow)
            return visualRect(option->direction, whole, {whole.right() - 27, whole.y(), 24, whole.height()});
        if (part == SC_ComboBoxEditField)
            return visualRect(option->direction, whole, whole.adjusted(8, 2, -28, -2));
    }
    return QProxyStyle::subControlRect(control, option, part, widget);
}

QRect Style::subElementRect(SubElement element, const QStyleOption* option, const QWidget* widget) const {
    const QRect usual = QProxyStyle::subElementRect(element, option, widget);
    if (element != SE_LineEditContents) return usual;
    const auto* frame = as<QStyleOptionFrame>(option);
    return frame && frame->lineWidth > 0 ? usual.adjusted(kSpace1 + 2, 0, -kSpace1 - 2, 0) : usual;
}

QSize Style::sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& size,
                              const QWidget* widget) const {
    QSize asked = QProxyStyle::sizeFromContents(type, option, size, widget);
    switch (type) {
        case CT_PushButton:
            asked = QSize(size.width() + 2 * kSpace3, size.height() + kSpace3);
            break;
        case CT_ToolButton:
            asked = asked.expandedTo({kTarget, kTarget});
            break;
        case CT_ComboBox:
            asked = QSize(size.width() + 48, size.height() + kSpace3);
            break;
        case CT_TabBarTab:
            return {size.width() + kSpace2, std::max(40, size.height())};
        case CT_LineEdit:
        case CT_CheckBox:
        case CT_RadioButton:
        case CT_MenuItem:
        case CT_ItemViewItem:
            break;
        case CT_HeaderSection:
            return {asked.width() + kSpace2, std::max(kTarget, asked.height())};
        default:
            return asked;
    }
    return {asked.width(), std::max(kTarget, asked.height())};
}

int Style::pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const {
    switch (metric) {
        case PM_IndicatorWidth:
        case PM_IndicatorHeight:
        case PM_ExclusiveIndicatorWidth:
        case PM_ExclusiveIndicatorHeight:
            return 20;
        case PM_CheckBoxLabelSpacing:
        case PM_RadioButtonLabelSpacing:
            return kSpace2;
        case PM_FocusFrameHMargin:
            return 6;
        case PM_ScrollBarExtent:
            return 12;
        case PM_ScrollBarSliderMin:
            return kShortestHandle;
        case PM_DefaultFrameWidth:
            return 2;
        case PM_ButtonShiftHorizontal:
        case PM_ButtonShiftVertical:
            return 0;
        case PM_TabBarTabHSpace:
            return kSpace6;
        case PM_TabBarTabShiftVertical:
        case PM_TabBarTabShiftHorizontal:
        case PM_TabBarTabOverlap:
            return 0;
        case PM_SplitterWidth:
            return 1;
        case PM_LayoutLeftMargin:
        case PM_LayoutTopMargin:
        case PM_LayoutRightMargin:
        case PM_LayoutBottomMargin:
            return kSpace3;
        case PM_LayoutHorizontalSpacing:
        case PM_LayoutVerticalSpacing:
            return kSpace2;
        default:
            return QProxyStyle::pixelMetric(metric, option, widget);
    }
}

int Style::styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                     QStyleHintReturn* data) const {
    switch (hint) {
        case SH_Widget_Animation_Duration:
            return 0;  // nothing moves by itself
        case SH_ComboBox_Popup:
            return 0;
        case SH_EtchDisabledText:
            return 0;
        case SH_TabBar_PreferNoArrows:
            return 1;
        case SH_UnderlineShortcut:
            return 0;
        default:
            return QProxyStyle::styleHint(hint, option, widget, data);
    }
}

}  // namespace evenfall::ui
