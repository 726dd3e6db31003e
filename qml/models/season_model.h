// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "entry_form.h"
#include "open_project.h"
#include "resume_state.h"
#include "settings_model.h"
#include "station_choices.h"

#include <QList>
#include <QObject>
#include <QPointF>
#include <QtQml/qqmlregistration.h>

/// A test at which the staff gauge was read.
class GaugeVisitItem {
    Q_GADGET
    QML_VALUE_TYPE(gaugeVisitItem)
    Q_PROPERTY(QString id MEMBER id CONSTANT FINAL)
    Q_PROPERTY(QString text MEMBER text CONSTANT FINAL)
    Q_PROPERTY(QString detail MEMBER detail CONSTANT FINAL)
    Q_PROPERTY(bool counts MEMBER counts CONSTANT FINAL)
public:
    QString id, text, detail;
    bool counts = true;
    friend bool operator==(const GaugeVisitItem&, const GaugeVisitItem&) = default;
};

/// One month of the year: what flows in half of its days, and in 95 of 100, as parts of the greatest.
class MonthItem {
    Q_GADGET
    QML_VALUE_TYPE(monthItem)
    Q_PROPERTY(QString name MEMBER name CONSTANT FINAL)
    Q_PROPERTY(double middle MEMBER middle CONSTANT FINAL)
    Q_PROPERTY(double low MEMBER low CONSTANT FINAL)
    Q_PROPERTY(double left MEMBER left CONSTANT FINAL) // to leave, by the monthly table
    Q_PROPERTY(QString words MEMBER words CONSTANT FINAL)
public:
    QString name;
    double middle = 0.0;
    double low = 0.0;
    double left = 0.0;
    QString words;
    friend bool operator==(const MonthItem&, const MonthItem&) = default;
};

/// A figure of the year with its name and its +/-.
class YearFigureItem {
    Q_GADGET
    QML_VALUE_TYPE(yearFigureItem)
    Q_PROPERTY(QString label MEMBER label CONSTANT FINAL)
    Q_PROPERTY(QString text MEMBER text CONSTANT FINAL)
public:
    QString label, text;
    friend bool operator==(const YearFigureItem&, const YearFigureItem&) = default;
};

/// The season: rating of the staff gauge, record of flows, duration curve, months, and how they come to the site.
class SeasonModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(bool open READ isOpen WRITE setOpen NOTIFY changed)
    // staff gauge and rating
    Q_PROPERTY(QList<GaugeVisitItem> visits READ visits NOTIFY changed)
    Q_PROPERTY(QString ratingText READ ratingText NOTIFY changed)
    Q_PROPERTY(QList<FindingText> ratingFindings READ ratingFindings NOTIFY changed)
    Q_PROPERTY(QList<QPointF> gauged READ gauged NOTIFY changed) // stage and flow, in the units below
    Q_PROPERTY(QList<QPointF> ratingCurve READ ratingCurve NOTIFY changed)
    Q_PROPERTY(QList<QPointF> ratingLower READ ratingLower NOTIFY changed)
    Q_PROPERTY(QList<QPointF> ratingUpper READ ratingUpper NOTIFY changed)
    Q_PROPERTY(EntryForm* zeroForm READ zeroForm CONSTANT)
    // the record
    Q_PROPERTY(QList<Choice> series READ series NOTIFY changed)
    Q_PROPERTY(QString chosenSeries READ chosenSeries WRITE setChosenSeries NOTIFY changed)
    Q_PROPERTY(QString seriesText READ seriesText NOTIFY changed)
    Q_PROPERTY(bool neighbour READ neighbour NOTIFY changed) // the record is of flows, not a stage log of this creek
    Q_PROPERTY(EntryForm* seriesForm READ seriesForm CONSTANT)
    Q_PROPERTY(QList<QPointF> days READ days NOTIFY changed) // years, flow at the gauge
    Q_PROPERTY(QList<QPointF> daysOutside READ daysOutside NOTIFY changed) // of days beyond the gauged stages
    // how it comes to the site
    Q_PROPERTY(QList<Choice> transfers READ transfers CONSTANT)
    Q_PROPERTY(QString transfer READ transfer WRITE setTransfer NOTIFY changed)
    Q_PROPERTY(EntryForm* transferForm READ transferForm NOTIFY changed) // null where nothing is asked
    Q_PROPERTY(QString transferText READ transferText NOTIFY changed)
    // the year at the site
    Q_PROPERTY(QList<FindingText> findings READ findings NOTIFY changed)
    Q_PROPERTY(QList<Choice> durationRules READ durationRules CONSTANT)
    Q_PROPERTY(QString durationRule READ durationRule WRITE setDurationRule NOTIFY changed)
    Q_PROPERTY(QList<QPointF> duration READ duration NOTIFY changed) // per cent of the time, flow
    Q_PROPERTY(double designFlow READ designFlow NOTIFY changed)     // in the unit of the plots; 0: none
    Q_PROPERTY(QList<YearFigureItem> figures READ figures NOTIFY changed)
    Q_PROPERTY(QList<MonthItem> months READ months NOTIFY changed)
    Q_PROPERTY(QString flowUnit READ flowUnit NOTIFY changed) // of every plot
    Q_PROPERTY(QString lengthUnit READ lengthUnit NOTIFY changed)
    // the flow to use
    Q_PROPERTY(QList<Choice> figureChoices READ figureChoices CONSTANT)
    Q_PROPERTY(QString figure READ figure WRITE setFigure NOTIFY changed)
    Q_PROPERTY(QList<Choice> monthNames READ monthNames CONSTANT)
    Q_PROPERTY(QList<Choice> monthChoices READ monthChoices CONSTANT) // all year, and the months
    Q_PROPERTY(QString fromMonth READ fromMonth WRITE setFromMonth NOTIFY changed) // "0": all year
    Q_PROPERTY(QString toMonth READ toMonth WRITE setToMonth NOTIFY changed)
    Q_PROPERTY(QString yearBegins READ yearBegins WRITE setYearBegins NOTIFY changed)
public:
    SeasonModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);

    [[nodiscard]] bool isOpen() const;
    void setOpen(bool open);
    [[nodiscard]] QList<GaugeVisitItem> visits() const;
    [[nodiscard]] QString ratingText() const;
    [[nodiscard]] QList<FindingText> ratingFindings() const;
    [[nodiscard]] QList<QPointF> gauged() const;
    [[nodiscard]] QList<QPointF> ratingCurve() const;
    [[nodiscard]] QList<QPointF> ratingLower() const;
    [[nodiscard]] QList<QPointF> ratingUpper() const;
    [[nodiscard]] EntryForm* zeroForm() { return &m_zero; }
    [[nodiscard]] QList<Choice> series() const;
    [[nodiscard]] QString chosenSeries() const;
    void setChosenSeries(const QString& key);
    [[nodiscard]] QString seriesText() const;
    [[nodiscard]] bool neighbour() const;
    [[nodiscard]] EntryForm* seriesForm() { return &m_series; }
    [[nodiscard]] QList<QPointF> days() const;
    [[nodiscard]] QList<QPointF> daysOutside() const;
    [[nodiscard]] QList<Choice> transfers() const;
    [[nodiscard]] QString transfer() const;
    void setTransfer(const QString& way);
    [[nodiscard]] EntryForm* transferForm();
    [[nodiscard]] QString transferText() const;
    [[nodiscard]] QList<FindingText> findings() const;
    [[nodiscard]] QList<Choice> durationRules() const;
    [[nodiscard]] QString durationRule() const;
    void setDurationRule(const QString& rule);
    [[nodiscard]] QList<QPointF> duration() const;
    [[nodiscard]] double designFlow() const;
    [[nodiscard]] QList<YearFigureItem> figures() const;
    [[nodiscard]] QList<MonthItem> months() const;
    [[nodiscard]] QString flowUnit() const;
    [[nodiscard]] QString lengthUnit() const;
    [[nodiscard]] QList<Choice> figureChoices() const;
    [[nodiscard]] QString figure() const;
    void setFigure(const QString& figure);
    [[nodiscard]] QList<Choice> monthNames() const;
    [[nodiscard]] QList<Choice> monthChoices() const;
    [[nodiscard]] QString fromMonth() const;
    void setFromMonth(const QString& month);
    [[nodiscard]] QString toMonth() const;
    void setToMonth(const QString& month);
    [[nodiscard]] QString yearBegins() const;
    void setYearBegins(const QString& month);

    Q_INVOKABLE void keepZero();
    Q_INVOKABLE void keepSeries();
    Q_INVOKABLE void keepTransfer();
    Q_INVOKABLE void strikeSeries(const QString& reason);
    /// Leaves a test out of the flow to use and the rating, or takes it in again (an empty reason).
    Q_INVOKABLE void setAside(const QString& test, const QString& reason);
    /// In words: what flows at that per cent of the time; the stage and flow at a touch of the rating's plot.
    Q_INVOKABLE QString durationAt(double percent) const;
    Q_INVOKABLE QString ratingAt(double stage) const;

signals:
    void changed();

private:
    [[nodiscard]] const rillmark::SiteSeason* season() const;
    [[nodiscard]] const rillmark::SiteRow& site() const { return m_project.survey().site; }
    [[nodiscard]] rillmark::Unit flow_unit() const;
    [[nodiscard]] rillmark::Unit length_unit() const;
    [[nodiscard]] double in_flow_unit(double m3s) const;
    /// One of the curve's three lines: the stages from the lowest to the highest gauged and a little beyond.
    [[nodiscard]] QList<QPointF> rating_line(double rillmark::RatedFlow::* edge) const;
    [[nodiscard]] QList<QPointF> day_points(bool outside) const;
    template <class Change>
    void change_site(Change&& change);
    /// Shows in the forms what the file holds, where another site or series is in hand than before.
    void show_stored();

    OpenProject& m_project;
    SettingsModel& m_settings;
    ResumeState& m_resume;
    EntryForm m_zero;
    EntryForm m_series;
    EntryForm m_area;
    EntryForm m_yield;
};
