// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/average.h"
#include "position/position_source.h"
#include "settings_model.h"

#include <QObject>

#include <memory>
#include <vector>

/// The receiver that the settings name, its latest fix, and the fixes being averaged at a station.
class PositionFeed : public QObject {
    Q_OBJECT
public:
    PositionFeed(SettingsModel& settings, QObject* parent = nullptr);
    ~PositionFeed() override;

    [[nodiscard]] QString state() const;
    [[nodiscard]] bool fresh() const;
    [[nodiscard]] const std::optional<rillmark::PositionFix>& latest() const { return m_latest; }

    void beginAveraging();
    void endAveraging();
    [[nodiscard]] bool averaging() const { return m_averaging; }
    [[nodiscard]] const std::vector<rillmark::PositionFix>& collected() const { return m_collected; }
    /// Of the fixes collected so far; refuses as average_position does.
    [[nodiscard]] rillmark::Expected<rillmark::AveragedPosition> average() const;

signals:
    void stateChanged();
    void fixReceived(const rillmark::PositionFix& fix);

private:
    void take_source();

    SettingsModel& m_settings;
    QString m_taken; // receiver and address that m_source was made for
    std::unique_ptr<rillmark::platform::PositionSource> m_source;
    std::optional<rillmark::PositionFix> m_latest;
    bool m_averaging = false;
    std::vector<rillmark::PositionFix> m_collected;
};
