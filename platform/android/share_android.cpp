// SPDX-License-Identifier: GPL-3.0-or-later
// Written for Qt 6.5 and later; never built here.
#include "share/share_file.h"

#include <QCoreApplication>
#include <QJniEnvironment>
#include <QJniObject>

namespace rillmark {

bool can_share_files() {
    return true;
}

Expected<void> share_file(const QString& file, const QString& title) {
    const QJniObject activity = QNativeInterface::QAndroidApplication::context();
    const QJniObject said = QJniObject::callStaticObjectMethod(
        "rillmark/field/ShareFile", "share",
        "(Landroid/content/Context;Ljava/lang/String;Ljava/lang/String;)Ljava/lang/String;", activity.object(),
        QJniObject::fromString(file).object<jstring>(), QJniObject::fromString(title).object<jstring>());
    QJniEnvironment environment;
    if (environment.checkAndClearExceptions() || !said.isValid())
        return refusal("exchange.share_failed", {}, {{"detail", std::string("ShareFile")}});
    if (const QString problem = said.toString(); !problem.isEmpty())
        return refusal("exchange.share_failed", {}, {{"detail", problem.toStdString()}});
    return {};
}

} // namespace rillmark
