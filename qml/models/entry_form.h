// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "formatter.h"
#include "resume_state.h"
#include "settings_model.h"
#include "units/parse_quantity.h"

#include <QAbstractListModel>
#include <QStringList>
#include <QtQml/qqmlregistration.h>

#include <functional>
#include <optional>
#include <vector>

/// The fields of one entry: what was typed, how it is understood, and what is wrong with it.
///
/// A presenter declares the fields; QML shows them and sends what is typed. Half-typed text is kept in the resume state
/// under the form's name until the entry is booked or cleared.
class EntryForm : public QAbstractListModel {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by a presenter")
    Q_PROPERTY(bool complete READ complete NOTIFY judged)
    Q_PROPERTY(int count READ count CONSTANT)
public:
    enum Role { KeyRole = Qt::UserRole + 1, LabelRole, NumericRole, TypedRole, UnderstoodRole, ProblemRole, UnitKeysRole, AsBeforeRole, RequiredRole };

    struct Field {
        QString key;
        QString label;
        std::optional<rillmark::Quantity> quantity; // empty: text
        bool required = true;
        bool may_be_negative = false;
    };
    /// Judges a number that was understood: a problem to show under the field, or nothing.
    using Judge = std::function<std::optional<rillmark::Finding>(const QString& key, double si)>;

    EntryForm(QString name, std::vector<Field> fields, SettingsModel& settings, ResumeState& resume,
              QObject* parent = nullptr);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QHash<int, QByteArray> roleNames() const override;

    [[nodiscard]] int count() const { return static_cast<int>(m_fields.size()); }
    /// Every required field is understood and no field has a refusal.
    [[nodiscard]] bool complete() const;
    [[nodiscard]] std::optional<double> number(const QString& key) const;
    [[nodiscard]] QString typed(const QString& key) const;
    void setJudge(Judge judge);
    void setLabel(const QString& key, const QString& label);
    /// Remembers the typed texts for "as before" and empties the fields.
    void booked();
    /// Empties all fields.
    Q_INVOKABLE void clear();
    void setTypedByKey(const QString& key, const QString& text);

    Q_INVOKABLE void setTyped(int row, const QString& text);
    Q_INVOKABLE QString typedAt(int row) const;
    /// The text of that field in the last entry that was booked; empty when there is none.
    Q_INVOKABLE QString before(int row) const;

signals:
    void judged();

private:
    struct State {
        QString typed;
        QString before;
    };
    [[nodiscard]] rillmark::Expected<double> understand(std::size_t row) const;
    [[nodiscard]] std::size_t row_of(const QString& key) const;
    [[nodiscard]] QString resume_key(std::size_t row) const;
    void touch(std::size_t row);

    QString m_name;
    std::vector<Field> m_fields;
    std::vector<State> m_states;
    SettingsModel& m_settings;
    ResumeState& m_resume;
    Judge m_judge;
};
