// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "open_project.h"

#include <QQuickImageProvider>

/// Small pictures of the open project for Image: "image://photos/<key>".
class PhotoProvider : public QQuickImageProvider {
public:
    explicit PhotoProvider(OpenProject& project);
    QImage requestImage(const QString& id, QSize* size, const QSize& wanted) override;

private:
    OpenProject& m_project;
};
