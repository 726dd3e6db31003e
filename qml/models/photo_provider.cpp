// SPDX-License-Identifier: GPL-3.0-or-later
#include "photo_provider.h"

// Without ForceAsynchronousImageLoading an Image that is asynchronous asks on a thread of its own; the path is the only
// thing read from the UI's side, the picture comes by a connection of this call.
PhotoProvider::PhotoProvider(OpenProject& project) : QQuickImageProvider(Image), m_project(project) {}

QImage PhotoProvider::requestImage(const QString& id, QSize* size, const QSize& wanted) {
    using namespace rillmark;
    QImage image;
    const std::filesystem::path path(m_project.path().toStdU16String());
    if (const Expected<Project> project = Project::open(path, OpenMode::ReadOnly))
        if (const Expected<std::vector<unsigned char>> bytes = project->thumbnail(id.toLongLong()); bytes && !bytes->empty())
            image.loadFromData(bytes->data(), static_cast<int>(bytes->size()));
    if (size != nullptr)
        *size = image.size();
    return wanted.isValid() && !image.isNull() ? image.scaled(wanted, Qt::KeepAspectRatio, Qt::SmoothTransformation) : image;
}
