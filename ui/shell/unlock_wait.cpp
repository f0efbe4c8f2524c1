// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/unlock_wait.h"

#include <QString>

namespace evenfall::ui {

UnlockWait::UnlockWait(Tell tell, QObject* parent) : QObject(parent), tell_(std::move(tell)) {
    timer_.setInterval(1000);
    connect(&timer_, &QTimer::timeout, this, [this] {
        --left_;
        this->tell();
    });
}

int UnlockWait::seconds_in(const Faults& faults) {
    for (const Fault& fault : faults)
        if (fault.id == "store-wait") return QString::fromStdString(fault.args.at("seconds")).toInt();
    return 0;
}

void UnlockWait::begin(Faults faults) {
    left_ = seconds_in(faults);
    faults_ = std::move(faults);
    if (left_ > 0) timer_.start();
    tell();
}

void UnlockWait::tell() {
    if (left_ <= 0) timer_.stop();
    for (Fault& fault : faults_)
        if (fault.id == "store-wait") fault.args["seconds"] = std::to_string(left_);
    tell_(left_ > 0 ? faults_ : Faults{}, left_);
}

}  // namespace evenfall::ui
