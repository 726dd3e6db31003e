// SPDX-License-Identifier: GPL-3.0-or-later
#include "entry_form.h"

using namespace rillmark;

EntryForm::EntryForm(QString name, std::vector<Field> fields, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QAbstractListModel(parent), m_name(std::move(name)), m_fields(std::move(fields)), m_states(m_fields.size()),
      m_settings(settings), m_resume(resume) {
    for (std::size_t row = 0; row < m_fields.size(); ++row)
        m_states[row].typed = m_resume.text(resume_key(row));
    connect(&m_settings, &SettingsModel::changed, this, [this] {
        if (!m_fields.empty())
            emit dataChanged(index(0), index(count() - 1));
        emit judged();
    });
}

int EntryForm::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : count();
}

QHash<int, QByteArray> EntryForm::roleNames() const {
    return {{KeyRole, "key"},           {LabelRole, "label"},     {NumericRole, "numeric"},   {TypedRole, "typed"},
            {UnderstoodRole, "understood"}, {ProblemRole, "problem"}, {UnitKeysRole, "unitKeys"}, {AsBeforeRole, "asBefore"},
            {RequiredRole, "required"}};
}

QVariant EntryForm::data(const QModelIndex& index, int role) const {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    const auto row = static_cast<std::size_t>(index.row());
    const Field& field = m_fields[row];
    const State& state = m_states[row];
    switch (role) {
    case KeyRole: return field.key;
    case LabelRole: return field.label;
    case NumericRole: return field.quantity.has_value();
    case TypedRole: return state.typed;
    case RequiredRole: return field.required;
    case AsBeforeRole: return state.before;
    case UnderstoodRole: {
        if (!field.quantity || state.typed.isEmpty())
            return QString();
        const Expected<double> si = understand(row);
        return si ? m_settings.formatter().value(*si, *field.quantity) : QString();
    }
    case ProblemRole: {
        if (!field.quantity || state.typed.isEmpty())
            return QString();
        const Expected<double> si = understand(row);
        if (!si)
            return m_settings.formatter().finding(si.error()).sentence;
        if (m_judge)
            if (const std::optional<Finding> doubt = m_judge(field.key, *si))
                return m_settings.formatter().finding(*doubt).sentence;
        return QString();
    }
    case UnitKeysRole: {
        QStringList keys;
        if (field.quantity)
            for (const Unit& unit : units_for(*field.quantity, m_settings.formatter().options().system))
                if (!unit.symbol.empty() && keys.size() < 4)
                    keys.append(QString::fromUtf8(unit.symbol.data(), static_cast<qsizetype>(unit.symbol.size())));
        return keys;
    }
    default: return {};
    }
}

Expected<double> EntryForm::understand(std::size_t row) const {
    const Formatter formatter = m_settings.formatter();
    const Field& field = m_fields[row];
    const Expected<ParsedQuantity> parsed = parse_quantity(m_states[row].typed.toStdString(), *field.quantity,
                                                           formatter.options().system, formatter.options().number);
    if (!parsed)
        return parsed.error();
    if (parsed->si < 0.0 && !field.may_be_negative)
        return refusal("units.negative", field.label.toStdString());
    return parsed->si;
}

bool EntryForm::complete() const {
    for (std::size_t row = 0; row < m_fields.size(); ++row) {
        const bool empty = m_states[row].typed.trimmed().isEmpty();
        if (empty && m_fields[row].required)
            return false;
        if (!empty && m_fields[row].quantity && !understand(row))
            return false;
    }
    return true;
}

std::size_t EntryForm::row_of(const QString& key) const {
    for (std::size_t row = 0; row < m_fields.size(); ++row)
        if (m_fields[row].key == key)
            return row;
    Q_ASSERT_X(false, "EntryForm", "no such field");
    return 0;
}

std::optional<double> EntryForm::number(const QString& key) const {
    const std::size_t row = row_of(key);
    if (m_states[row].typed.isEmpty())
        return {};
    const Expected<double> si = understand(row);
    return si ? std::optional(*si) : std::nullopt;
}

QString EntryForm::typed(const QString& key) const {
    return m_states[row_of(key)].typed;
}

void EntryForm::setJudge(Judge judge) {
    m_judge = std::move(judge);
}

void EntryForm::setLabel(const QString& key, const QString& label) {
    const std::size_t row = row_of(key);
    m_fields[row].label = label;
    touch(row);
}

void EntryForm::booked() {
    for (std::size_t row = 0; row < m_fields.size(); ++row)
        m_states[row].before = m_states[row].typed;
    clear();
}

void EntryForm::clear() {
    for (std::size_t row = 0; row < m_fields.size(); ++row) {
        m_states[row].typed.clear();
        m_resume.remove(resume_key(row));
        touch(row);
    }
    emit judged();
}

void EntryForm::setTypedByKey(const QString& key, const QString& text) {
    setTyped(static_cast<int>(row_of(key)), text);
}

void EntryForm::setTyped(int row, const QString& text) {
    if (row < 0 || row >= count())
        return;
    const auto at = static_cast<std::size_t>(row);
    if (m_states[at].typed == text)
        return;
    m_states[at].typed = text;
    m_resume.setText(resume_key(at), text);
    touch(at);
    emit judged();
}

QString EntryForm::typedAt(int row) const {
    return row >= 0 && row < count() ? m_states[static_cast<std::size_t>(row)].typed : QString();
}

QString EntryForm::before(int row) const {
    return row >= 0 && row < count() ? m_states[static_cast<std::size_t>(row)].before : QString();
}

QString EntryForm::resume_key(std::size_t row) const {
    return QStringLiteral("form/%1/%2").arg(m_name, m_fields[row].key);
}

void EntryForm::touch(std::size_t row) {
    const QModelIndex at = index(static_cast<int>(row));
    emit dataChanged(at, at);
}
