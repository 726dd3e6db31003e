// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "entry_form.h"
#include "level_page_model.h"
#include "levelling/three_wire.h"
#include "open_project.h"
#include "resume_state.h"
#include "settings_model.h"
#include "site/book_page.h"
#include "station_choices.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

/// A station with its height: a line of the list of heights.
class HeightItem {
    Q_GADGET
    QML_VALUE_TYPE(heightItem)
    Q_PROPERTY(QString name MEMBER name CONSTANT FINAL)
    Q_PROPERTY(QString height MEMBER height CONSTANT FINAL)
    Q_PROPERTY(QString fall MEMBER fall CONSTANT FINAL)
public:
    QString name;
    QString height;
    QString fall; // below or above the intake, in words; empty while it is not known
    friend bool operator==(const HeightItem&, const HeightItem&) = default;
};

/// Level books: the page, the set-up in hand, the sight to be booked next, and how the book closes.
class LevelsModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(QList<Choice> books READ books NOTIFY changed)
    Q_PROPERTY(QString book READ book WRITE setBook NOTIFY changed)
    Q_PROPERTY(QString bookName READ bookName NOTIFY changed)
    Q_PROPERTY(QString instrument READ instrument NOTIFY changed)
    Q_PROPERTY(LevelPageModel* page READ page CONSTANT)
    Q_PROPERTY(EntryForm* form READ form NOTIFY changed)
    Q_PROPERTY(EntryForm* lineForm READ lineForm CONSTANT) // of the line: its length, for classes by distance
    Q_PROPERTY(bool threeWires READ threeWires WRITE setThreeWires NOTIFY changed)
    Q_PROPERTY(QList<Choice> shareOuts READ shareOuts CONSTANT)
    Q_PROPERTY(QString shareOut READ shareOut WRITE setShareOut NOTIFY changed) // how the closing error is shared out
    Q_PROPERTY(QString kind READ kind WRITE setKind NOTIFY changed)
    Q_PROPERTY(QList<Choice> kinds READ kinds NOTIFY changed)
    Q_PROPERTY(QString point READ point WRITE setPoint NOTIFY changed) // key of a station, or "cp" for the next change point
    Q_PROPERTY(QList<Choice> points READ points NOTIFY changed)
    Q_PROPERTY(bool inverted READ inverted WRITE setInverted NOTIFY changed)
    Q_PROPERTY(bool ready READ ready NOTIFY changed)
    Q_PROPERTY(QString setup READ setup NOTIFY changed)
    Q_PROPERTY(QList<FindingText> doubts READ doubts NOTIFY changed)
    Q_PROPERTY(QList<FindingText> findings READ findings NOTIFY changed)
    Q_PROPERTY(QList<Choice> allowances READ allowances NOTIFY changed)
    Q_PROPERTY(QString allowance READ allowance WRITE setAllowance NOTIFY changed)
    Q_PROPERTY(bool closes READ closes NOTIFY changed)
    Q_PROPERTY(QString closure READ closure NOTIFY changed)
    Q_PROPERTY(double closureShare READ closureShare NOTIFY changed) // misclosure over what is allowed
    Q_PROPERTY(QList<HeightItem> heights READ heights NOTIFY changed)
public:
    LevelsModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);

    [[nodiscard]] QList<Choice> books() const;
    [[nodiscard]] QString book() const { return key_text(m_book); }
    void setBook(const QString& key);
    [[nodiscard]] QString bookName() const;
    [[nodiscard]] QString instrument() const;
    [[nodiscard]] LevelPageModel* page() { return &m_page; }
    [[nodiscard]] EntryForm* form() { return threeWires() ? &m_wires : &m_form; }
    [[nodiscard]] EntryForm* lineForm() { return &m_line; }
    [[nodiscard]] bool threeWires() const;
    void setThreeWires(bool three);
    [[nodiscard]] QList<Choice> shareOuts() const;
    [[nodiscard]] QString shareOut() const;
    void setShareOut(const QString& how);
    [[nodiscard]] QString kind() const { return m_kind; }
    void setKind(const QString& kind);
    /// The sights that may be booked next.
    [[nodiscard]] QList<Choice> kinds() const;
    [[nodiscard]] QString point() const { return m_point; }
    void setPoint(const QString& point);
    [[nodiscard]] QList<Choice> points() const;
    [[nodiscard]] bool inverted() const { return m_inverted; }
    void setInverted(bool inverted);
    [[nodiscard]] bool ready() const;
    /// The set-up in hand, in words.
    [[nodiscard]] QString setup() const;
    /// What speaks against the sight as typed.
    [[nodiscard]] QList<FindingText> doubts() const;
    /// Of the book and the height network.
    [[nodiscard]] QList<FindingText> findings() const;
    [[nodiscard]] QList<Choice> allowances() const;
    [[nodiscard]] QString allowance() const;
    void setAllowance(const QString& code);
    [[nodiscard]] bool closes() const { return m_sheet.closing.has_value(); }
    [[nodiscard]] QString closure() const;
    [[nodiscard]] double closureShare() const;
    [[nodiscard]] QList<HeightItem> heights() const;

    Q_INVOKABLE void newBook(const QString& name, const QString& instrument);
    Q_INVOKABLE void renameBook(const QString& name);
    Q_INVOKABLE void setInstrument(const QString& instrument);
    /// Takes the length of the line over into the book.
    Q_INVOKABLE void keepLength();
    /// Books the sight as typed; the form empties once it is on the disk.
    Q_INVOKABLE void bookSight();
    /// The readings of a line of the page, for striking out: key and words.
    Q_INVOKABLE QList<Choice> sightsOfLine(int row) const;
    Q_INVOKABLE bool isStruck(const QString& sight) const;
    Q_INVOKABLE void strike(const QString& sight, const QString& reason);
    Q_INVOKABLE void restore(const QString& sight);
    /// Books the next sight at the place of a struck one.
    Q_INVOKABLE void repeat(const QString& sight);

signals:
    void changed();

private:
    void refresh();
    void show_length();
    [[nodiscard]] const EntryForm& entry() const { return threeWires() ? m_wires : m_form; }
    [[nodiscard]] rillmark::Expected<rillmark::ThreeWire> typed_wires() const;
    void propose_next();
    [[nodiscard]] const rillmark::LevelBookRow* row() const;
    [[nodiscard]] const rillmark::Booked<rillmark::SightRow>* sight(rillmark::Id id) const;
    [[nodiscard]] const rillmark::SightRow* last_sight() const;
    [[nodiscard]] std::string next_change_point() const;
    [[nodiscard]] std::optional<rillmark::Sight> typed_sight() const;
    [[nodiscard]] std::optional<double> backsight_in_hand() const;
    [[nodiscard]] std::optional<rillmark::Estimate> expected_reading(const rillmark::Sight& sight) const;

    OpenProject& m_project;
    SettingsModel& m_settings;
    ResumeState& m_resume;
    EntryForm m_form;
    EntryForm m_wires;
    EntryForm m_line;
    LevelPageModel m_page;
    rillmark::Id m_book = 0;
    QString m_kind = QStringLiteral("backsight");
    QString m_point;
    bool m_inverted = false;
    rillmark::Id m_repeats = 0; // the struck sight whose place the next one takes
    rillmark::BookPage m_sheet; // the book as it is reduced and closed
};
