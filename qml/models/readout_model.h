// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "budget_bars.h"
#include "open_project.h"
#include "settings_model.h"

#include <QList>
#include <QObject>
#include <QtQml/qqmlregistration.h>

/// The strip on every screen: running head, flow and watts at the house, and how we know each of them.
class ReadoutModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(FigureText head READ head NOTIFY changed)
    Q_PROPERTY(FigureText flow READ flow NOTIFY changed)
    Q_PROPERTY(FigureText power READ power NOTIFY changed)
    Q_PROPERTY(bool headThin READ headThin NOTIFY changed)
    Q_PROPERTY(bool flowThin READ flowThin NOTIFY changed)
    Q_PROPERTY(bool powerThin READ powerThin NOTIFY changed)
public:
    ReadoutModel(OpenProject& project, SettingsModel& settings, QObject* parent = nullptr);

    enum class Figure { Head, Flow, Power };
    Q_ENUM(Figure)

    [[nodiscard]] FigureText head() const;
    [[nodiscard]] FigureText flow() const;
    [[nodiscard]] FigureText power() const;
    [[nodiscard]] bool headThin() const { return !m_project.estimate().head_doubts.empty(); }
    [[nodiscard]] bool flowThin() const { return !m_project.estimate().flow_doubts.empty(); }
    [[nodiscard]] bool powerThin() const { return !m_project.estimate().power_doubts.empty(); }

    /// From where to where, of which tests, through which links.
    Q_INVOKABLE QString statement(ReadoutModel::Figure figure) const;
    Q_INVOKABLE QList<FindingText> doubts(ReadoutModel::Figure figure) const;
    /// Largest first, small ones summed up in a last line.
    Q_INVOKABLE QList<BudgetBar> bars(ReadoutModel::Figure figure) const;
    /// The one reading whose repeat would narrow the figure most; empty where nothing is known.
    Q_INVOKABLE QString advice(ReadoutModel::Figure figure) const;

signals:
    void changed();

private:
    [[nodiscard]] QString flow_statement(const rillmark::SiteFlow& flow) const;
    [[nodiscard]] QString head_statement(const rillmark::RunningHead& head) const;
    [[nodiscard]] const rillmark::Budgeted* budgeted(Figure figure) const;
    OpenProject& m_project;
    SettingsModel& m_settings;
};
