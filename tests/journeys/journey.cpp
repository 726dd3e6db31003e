// SPDX-License-Identifier: GPL-3.0-or-later
#include "journey.h"

#include "photo_provider.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <QElapsedTimer>
#include <QQuickItem>
#include <QtTest/QTest>

namespace {

constexpr int kPatience_ms = 15000;
constexpr int kBreath_ms = 15;

void walk(QAccessibleInterface* node, const std::function<void(QAccessibleInterface*)>& visit) {
    for (int i = 0; i < node->childCount(); ++i) {
        QAccessibleInterface* child = node->child(i);
        if (child == nullptr || !child->isValid() || child->state().invisible)
            continue;
        visit(child);
        walk(child, visit);
    }
}

/// The nearest scrolling ancestor.
QQuickItem* scroller_of(QQuickItem* item) {
    for (QQuickItem* up = item ? item->parentItem() : nullptr; up != nullptr; up = up->parentItem())
        if (up->inherits("QQuickFlickable"))
            return up;
    return nullptr;
}

} // namespace

Journey::Journey(const QString& folder, QSize window_size) {
    QAccessible::setActive(true);
    m_app = std::make_unique<AppModel>(folder);
    m_app->resumeLast();
    m_engine = std::make_unique<QQmlApplicationEngine>();
    QObject::connect(m_engine.get(), &QQmlEngine::warnings, m_engine.get(), [this](const QList<QQmlError>& warnings) {
        for (const QQmlError& warning : warnings)
            m_complaints.append(warning.toString());
    });
    m_engine->addImportPath(QStringLiteral("qrc:/qt/qml"));
    m_engine->addImageProvider(QStringLiteral("photos"), new PhotoProvider(m_app->project()));
    m_engine->setInitialProperties({{QStringLiteral("app"), QVariant::fromValue(m_app.get())}});
    m_engine->load(QUrl(QStringLiteral("qrc:/qt/qml/Rillmark/Ui/Main.qml")));
    m_window = qobject_cast<QQuickWindow*>(m_engine->rootObjects().value(0));
    if (m_window == nullptr) {
        ADD_FAILURE() << "the window did not load: " << m_complaints.join(QLatin1Char('\n')).toStdString();
        return;
    }
    m_window->resize(window_size);
    EXPECT_TRUE(QTest::qWaitForWindowExposed(m_window));
}

Journey::~Journey() = default;

QList<Journey::Found> Journey::elements() const {
    QList<Found> all;
    QAccessibleInterface* root = QAccessible::queryAccessibleInterface(m_window);
    if (root == nullptr)
        return all;
    walk(root, [&all](QAccessibleInterface* node) {
        Found found;
        found.name = node->text(QAccessible::Name);
        found.box = node->rect();
        found.object = node->object();
        found.editable = node->role() == QAccessible::EditableText;
        if (QAccessibleActionInterface* actions = node->actionInterface())
            found.pressable = actions->actionNames().contains(QAccessibleActionInterface::pressAction()) ||
                              actions->actionNames().contains(QAccessibleActionInterface::toggleAction());
        if (auto* item = qobject_cast<QQuickItem*>(node->object()); item == nullptr || item->isVisible())
            all.append(found);
    });
    return all;
}

std::optional<Journey::Found> Journey::find(const QString& name, bool editable) const {
    std::optional<Found> label;
    // what was opened last lies on top
    const QList<Found> all = elements();
    for (auto found = all.rbegin(); found != all.rend(); ++found) {
        if (found->name != name || found->box.isEmpty())
            continue;
        if (editable ? found->editable : (found->pressable || found->editable))
            return *found;
        if (!label)
            label = *found;
    }
    return editable ? std::nullopt : label;
}

std::optional<Journey::Found> Journey::wait_for(const QString& name, bool editable) {
    QElapsedTimer clock;
    clock.start();
    while (true) {
        if (std::optional<Found> found = find(name, editable))
            return found;
        if (clock.elapsed() > kPatience_ms)
            break;
        QTest::qWait(kBreath_ms);
    }
    if (const QString folder = qEnvironmentVariable("RILLMARK_FAILED_PICTURES"); !folder.isEmpty())
        m_window->grabWindow().save(folder + QStringLiteral("/") + QString(name).replace(QLatin1Char('/'), QLatin1Char('-')) + QStringLiteral(".png"));
    ADD_FAILURE() << "nothing showing is named \"" << name.toStdString() << "\". These are:\n" << names().toStdString();
    return {};
}

void Journey::reveal(const Found& found) {
    auto* item = qobject_cast<QQuickItem*>(found.object);
    QQuickItem* scroller = scroller_of(item);
    if (scroller == nullptr)
        return;
    const double top = item->mapToItem(scroller, QPointF(0, 0)).y();
    const double y = scroller->property("contentY").toDouble();
    if (top < 0 || top + item->height() > scroller->height()) {
        const double furthest = std::max(0.0, scroller->property("contentHeight").toDouble() - scroller->height());
        scroller->setProperty("contentY", std::clamp(y + top - scroller->height() / 2 + item->height() / 2, 0.0, furthest));
        QTest::qWait(kBreath_ms);
    }
}

void Journey::tap(const QString& name) {
    const std::optional<Found> found = wait_for(name);
    if (!found)
        return;
    reveal(*found);
    auto* item = qobject_cast<QQuickItem*>(found->object);
    if (item == nullptr)
        return;
    const QPointF middle = item->mapToScene(QPointF(item->width() / 2, item->height() / 2));
    EXPECT_TRUE(item->isEnabled()) << name.toStdString() << " is not enabled";
    QTest::mouseClick(m_window, Qt::LeftButton, {}, middle.toPoint());
    QTest::qWait(kBreath_ms);
}

void Journey::type(const QString& name, const QString& text) {
    tap(name);
    QTest::keyClick(m_window, Qt::Key_A, Qt::ControlModifier);
    QTest::keyClick(m_window, Qt::Key_Backspace);
    for (const QChar& letter : text)
        QTest::sendKeyEvent(QTest::Click, m_window, Qt::Key(0), letter, {});
    QTest::qWait(kBreath_ms);
}

void Journey::key(Qt::Key key) {
    QTest::keyClick(m_window, key);
    QTest::qWait(kBreath_ms);
}

bool Journey::shows(const QString& text) const {
    const QList<Found> all = elements();
    return std::any_of(all.begin(), all.end(), [&text](const Found& found) {
        if (found.name.contains(text))
            return true;
        QAccessibleInterface* node = found.object ? QAccessible::queryAccessibleInterface(found.object) : nullptr;
        return node != nullptr && (node->text(QAccessible::Value).contains(text) || node->text(QAccessible::Description).contains(text));
    });
}

void Journey::see(const QString& text) {
    EXPECT_TRUE(QTest::qWaitFor([&] { return shows(text); }, kPatience_ms))
        << "\"" << text.toStdString() << "\" does not show. These do:\n"
        << names().toStdString();
}

void Journey::gone(const QString& text) {
    EXPECT_TRUE(QTest::qWaitFor([&] { return !shows(text); }, kPatience_ms)) << "\"" << text.toStdString() << "\" still shows";
}

void Journey::place(const QString& place) {
    tap(place);
}

QStringList Journey::small_controls(double least) const {
    QStringList small;
    for (const Found& found : elements()) {
        auto* item = qobject_cast<QQuickItem*>(found.object);
        if ((found.pressable || found.editable) && item != nullptr && std::min(item->width(), item->height()) < least)
            small.append(QStringLiteral("%1 %2x%3").arg(found.name).arg(item->width()).arg(item->height()));
    }
    return small;
}

QStringList Journey::unnamed_controls() const {
    QStringList unnamed;
    for (const Found& found : elements())
        if ((found.pressable || found.editable) && found.name.trimmed().isEmpty())
            unnamed.append(QString::fromLatin1(found.object ? found.object->metaObject()->className() : "?"));
    return unnamed;
}

QString Journey::names() const {
    QStringList all;
    for (const Found& found : elements())
        if (!found.name.isEmpty())
            all.append(QStringLiteral("  %1%2").arg(found.pressable ? QStringLiteral("[press] ") : found.editable ? QStringLiteral("[edit] ") : QString(), found.name));
    return all.join(QLatin1Char('\n'));
}
