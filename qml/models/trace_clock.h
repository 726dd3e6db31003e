// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "resume_state.h"
#include "station_choices.h"

#include <QElapsedTimer>
#include <QObject>
#include <QTimer>
#include <QtQml/qqmlregistration.h>

/// The clock of a salt test read by hand: it runs from the pouring on, over a kill of the program too, and says when
/// the next reading is due. Keeps to the system's steady clock while the program runs.
class TraceClock : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(bool running READ running NOTIFY changed)
    Q_PROPERTY(QList<Choice> intervals READ intervals CONSTANT)
    Q_PROPERTY(QString interval READ interval WRITE setInterval NOTIFY changed) // seconds
    Q_PROPERTY(int left READ left NOTIFY ticked) // whole seconds to the next reading; 0: now
    Q_PROPERTY(QString elapsed READ elapsed NOTIFY ticked)
public:
    explicit TraceClock(ResumeState& resume, QObject* parent = nullptr);

    /// The test that it belongs to; its clock goes on where it was left.
    void setTest(const QString& key);
    [[nodiscard]] bool running() const { return m_tick.isActive(); }
    [[nodiscard]] QList<Choice> intervals() const;
    [[nodiscard]] QString interval() const;
    void setInterval(const QString& seconds);
    [[nodiscard]] int left() const;
    [[nodiscard]] QString elapsed() const;
    [[nodiscard]] double seconds() const;

    Q_INVOKABLE void start();
    Q_INVOKABLE void stop();

signals:
    void changed();
    void ticked();
    /// A reading is due, so many seconds after the start.
    void due(double seconds);

private:
    void tick();
    void run_from(qint64 started_ms);
    [[nodiscard]] QString key() const;

    ResumeState& m_resume;
    QString m_test;
    QTimer m_tick;
    QElapsedTimer m_steady;
    double m_before_s = 0.0; // run before the steady clock was started
    qint64 m_last_due = 0;   // intervals gone by
};
