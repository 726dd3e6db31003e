// SPDX-License-Identifier: GPL-3.0-or-later
#include "levels_model.h"

#include "sight_form.h"
#include "site/heights.h"

#include <algorithm>
#include <cmath>

using namespace rillmark;

namespace {

const QString kLength = QStringLiteral("length");

} // namespace

LevelsModel::LevelsModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_resume(resume),
      m_form(QStringLiteral("sight"), sight_form::one_wire(), settings, resume),
      m_wires(QStringLiteral("wires"), sight_form::three_wires(), settings, resume),
      m_line(QStringLiteral("line"), {{kLength, tr("Length of the line"), Quantity::Length, false}}, settings, resume) {
    connect(&m_project, &OpenProject::opened, this, [this] {
        m_book = key_of(m_resume.text(QStringLiteral("levels/book")));
        m_point.clear();
        m_repeats = 0;
    });
    connect(&m_project, &OpenProject::changed, this, &LevelsModel::refresh);
    connect(&m_settings, &SettingsModel::changed, this, &LevelsModel::refresh);
    for (EntryForm* form : {&m_form, &m_wires})
        connect(form, &EntryForm::judged, this, &LevelsModel::changed);
}

const LevelBookRow* LevelsModel::row() const {
    return m_project.survey().book(m_book);
}

const Booked<SightRow>* LevelsModel::sight(Id id) const {
    const auto& sights = m_project.survey().sights;
    const auto hit = std::find_if(sights.begin(), sights.end(), [id](const auto& one) { return one.row.id == id; });
    return hit == sights.end() ? nullptr : &*hit;
}

QList<Choice> LevelsModel::books() const {
    QList<Choice> choices;
    for (const Booked<LevelBookRow>& one : m_project.survey().books)
        if (!one.struck)
            choices.append({key_text(one.row.id), QString::fromStdString(one.row.name)});
    return choices;
}

void LevelsModel::setBook(const QString& key) {
    m_book = key_of(key);
    m_resume.setText(QStringLiteral("levels/book"), key);
    m_point.clear();
    m_repeats = 0;
    show_length();
    refresh();
}

QString LevelsModel::bookName() const {
    return row() ? QString::fromStdString(row()->name) : QString();
}

QString LevelsModel::instrument() const {
    return row() ? QString::fromStdString(row()->instrument) : QString();
}

void LevelsModel::refresh() {
    if (row() == nullptr) {
        const QList<Choice> all = books();
        m_book = all.isEmpty() ? 0 : key_of(all.last().id);
        show_length();
    }
    m_sheet = book_page(m_project.survey(), m_project.estimate().heights, m_book);
    m_page.show(m_sheet.lines, m_settings.formatter());
    propose_next();
    emit changed();
}

void LevelsModel::show_length() {
    const std::optional<double> length_m = row() ? row()->length_m : std::nullopt;
    m_line.setTypedByKey(kLength, length_m ? m_settings.formatter().value(*length_m, Quantity::Length) : QString());
}

void LevelsModel::keepLength() {
    if (row() == nullptr || !m_line.complete())
        return;
    LevelBookRow book = *row();
    book.length_m = m_line.number(kLength);
    m_project.change(book);
}

QList<Choice> LevelsModel::shareOuts() const {
    return {{QString(), tr("Not shared out")},
            {QStringLiteral("setup"), tr("By set-up")},
            {QStringLiteral("distance"), tr("By distance")},
            {QStringLiteral("setup-anyway"), tr("By set-up, though it is too large")},
            {QStringLiteral("distance-anyway"), tr("By distance, though it is too large")}};
}

QString LevelsModel::shareOut() const {
    return row() ? QString::fromStdString(row()->share_out) : QString();
}

void LevelsModel::setShareOut(const QString& how) {
    if (row() == nullptr || how == shareOut())
        return;
    LevelBookRow book = *row();
    book.share_out = how.toStdString();
    m_project.change(book);
}

QList<FindingText> LevelsModel::findings() const {
    Findings all;
    if (m_sheet.not_reduced)
        all.push_back(*m_sheet.not_reduced);
    if (m_sheet.reduced)
        all.insert(all.end(), m_sheet.reduced->findings.begin(), m_sheet.reduced->findings.end());
    if (m_sheet.no_closure)
        all.push_back(*m_sheet.no_closure);
    const Findings& network = m_project.estimate().heights.findings;
    all.insert(all.end(), network.begin(), network.end());
    return m_settings.formatter().findings(all);
}

QList<Choice> LevelsModel::allowances() const {
    QList<Choice> choices;
    for (const std::span<const Allowance> rules : {rillmark::allowances(), section_allowances()})
        for (const Allowance& one : rules)
            choices.append({QString::fromUtf8(one.code.data(), static_cast<qsizetype>(one.code.size())),
                            Formatter::words("levels.allowance." + std::string(one.code))});
    return choices;
}

QString LevelsModel::allowance() const {
    const std::string_view site_rule = rillmark::allowance(AllowanceId::SiteRule).code;
    return row() && !row()->allowance.empty() ? QString::fromStdString(row()->allowance)
                                              : QString::fromUtf8(site_rule.data(), static_cast<qsizetype>(site_rule.size()));
}

void LevelsModel::setAllowance(const QString& code) {
    if (row() == nullptr || code == allowance())
        return;
    LevelBookRow book = *row();
    book.allowance = code.toStdString();
    m_project.change(book);
}

QString LevelsModel::closure() const {
    return m_sheet.closing ? m_settings.formatter().closing(*m_sheet.closing) : QString();
}

double LevelsModel::closureShare() const {
    if (!m_sheet.closing || !(m_sheet.closing->closure.allowed_m > 0.0))
        return 0.0;
    return std::abs(m_sheet.closing->closure.misclosure_m) / m_sheet.closing->closure.allowed_m;
}

QList<HeightItem> LevelsModel::heights() const {
    QList<HeightItem> items;
    const Formatter formatter = m_settings.formatter();
    const SiteHeights& heights = m_project.estimate().heights;
    for (const Booked<StationRow>& station : m_project.survey().stations) {
        const auto height = heights.height.find(station.row.id);
        if (station.struck || height == heights.height.end())
            continue;
        HeightItem item;
        item.name = QString::fromStdString(station.row.name);
        item.height = formatter.estimate(height->second, Quantity::Length);
        if (const auto fall = heights.fall.find(station.row.id);
            fall != heights.fall.end() && fall->second.standard_uncertainty > 0.0) // the intake is its own reference
            item.fall = formatter.against_intake(fall->second);
        items.append(item);
    }
    return items;
}

void LevelsModel::newBook(const QString& name, const QString& instrument) {
    LevelBookRow book;
    book.name = name.simplified().isEmpty() ? tr("Level book %1").arg(books().size() + 1).toStdString()
                                            : name.simplified().toStdString();
    book.instrument = instrument.simplified().toStdString();
    book.observer = m_settings.observer().toStdString();
    book.allowance = rillmark::allowance(AllowanceId::SiteRule).code;
    m_project.book(book, [this](Id id) { setBook(key_text(id)); });
}

void LevelsModel::renameBook(const QString& name) {
    if (row() == nullptr || name.simplified().isEmpty() || name.simplified() == bookName())
        return;
    LevelBookRow book = *row();
    book.name = name.simplified().toStdString();
    m_project.change(book);
}

void LevelsModel::setInstrument(const QString& instrument) {
    if (row() == nullptr || instrument.simplified() == this->instrument())
        return;
    LevelBookRow book = *row();
    book.instrument = instrument.simplified().toStdString();
    m_project.change(book);
}

QList<Choice> LevelsModel::sightsOfLine(int line) const {
    QList<Choice> choices;
    if (line < 0 || line >= m_page.count())
        return choices;
    for (const Id id : m_page.sights(line)) {
        const Booked<SightRow>* one = sight(id);
        if (one == nullptr)
            continue;
        choices.append({key_text(id), tr("%1 %2 on %3, typed %4")
                                          .arg(sight_form::kind_words(QString::fromStdString(one->row.kind)),
                                               m_settings.formatter().value(one->row.reading_m, Quantity::Length),
                                               QString::fromStdString(point_name(m_project.survey(), one->row)),
                                               QString::fromStdString(one->row.typed))});
    }
    return choices;
}

bool LevelsModel::isStruck(const QString& key) const {
    const Booked<SightRow>* one = sight(key_of(key));
    return one != nullptr && one->struck;
}

void LevelsModel::strike(const QString& key, const QString& reason) {
    m_project.strike(SightRow::kTable, key_of(key), reason);
}

void LevelsModel::restore(const QString& key) {
    m_project.restore(SightRow::kTable, key_of(key), QStringLiteral("restored"));
}
