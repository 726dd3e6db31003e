// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "formatter.h"
#include "site/book_page.h"

#include <QAbstractListModel>
#include <QtQml/qqmlregistration.h>

#include <vector>

/// The lines of one level book as on paper: a line a staff position, struck-out readings in their place.
class LevelPageModel : public QAbstractListModel {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by a presenter")
    Q_PROPERTY(int count READ count NOTIFY countChanged)
public:
    enum Role { PointRole = Qt::UserRole + 1, BacksightRole, IntermediateRole, ForesightRole, RiseRole, FallRole, LevelRole,
                RemarkRole, StruckRole, SpokenRole };
    explicit LevelPageModel(QObject* parent = nullptr) : QAbstractListModel(parent) {}

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QHash<int, QByteArray> roleNames() const override;
    [[nodiscard]] int count() const { return static_cast<int>(m_lines.size()); }

    /// Lays the page out anew.
    void show(const std::vector<rillmark::BookPageLine>& page, const Formatter& formatter);
    /// The sights of a line.
    [[nodiscard]] const std::vector<rillmark::Id>& sights(int row) const { return m_lines[static_cast<std::size_t>(row)].sights; }

signals:
    void countChanged();

private:
    struct Line {
        QString point, backsight, intermediate, foresight, rise, fall, level, remark;
        bool struck = false;
        std::vector<rillmark::Id> sights;
    };
    std::vector<Line> m_lines;
};
