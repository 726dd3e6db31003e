// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/multistatus.h"

#include <QUrl>
#include <QXmlStreamReader>

namespace rillmark::sync {

namespace {

constexpr int kMostLevels = 16;
constexpr std::size_t kMostThings = 20'000;
constexpr qsizetype kLongestHref = 4'000;
constexpr qsizetype kLongestName = 255;

Finding unreadable(const QString& detail) {
    return refusal("exchange.server_list", {}, {{"detail", detail.toStdString()}});
}

bool is_dav(const QXmlStreamReader& xml, QLatin1String name) {
    return xml.namespaceUri() == QLatin1String("DAV:") && xml.name() == name;
}

/// What was seen of a response so far.
struct Response {
    QString href;
    bool collection = false; // in the propstat that is being read
    bool folder = false;
};

std::string last_part(const QString& href) {
    QString path = QUrl(href).path(QUrl::FullyEncoded);
    while (path.endsWith(QLatin1Char('/')))
        path.chop(1);
    return QUrl::fromPercentEncoding(path.section(QLatin1Char('/'), -1).toUtf8()).toStdString();
}

class Reader {
public:
    explicit Reader(const QByteArray& bytes) : m_xml(bytes) {}

    Expected<std::vector<Listed>> read() {
        while (!m_xml.atEnd()) {
            const QXmlStreamReader::TokenType token = m_xml.readNext();
            if (token == QXmlStreamReader::DTD || token == QXmlStreamReader::EntityReference)
                return unreadable(QStringLiteral("document type or entity"));
            if (token == QXmlStreamReader::StartElement && !open())
                return unreadable(m_problem);
            if (token == QXmlStreamReader::EndElement && !close())
                return unreadable(m_problem);
        }
        if (m_xml.hasError())
            return unreadable(m_xml.errorString());
        return m_list;
    }

private:
    bool fail(const char* why) {
        m_problem = QString::fromLatin1(why);
        return false;
    }
    bool open() {
        if (++m_levels > kMostLevels)
            return fail("too many levels");
        if (m_levels == 1)
            return is_dav(m_xml, QLatin1String("multistatus")) || fail("no multistatus");
        if (m_levels == 2)
            m_response = {};
        else if (m_levels == 3 && is_dav(m_xml, QLatin1String("href")))
            return take_href();
        else if (m_levels == 3 && is_dav(m_xml, QLatin1String("propstat")))
            m_response.collection = false;
        else if (m_levels == 4 && is_dav(m_xml, QLatin1String("status")))
            return take_status();
        else if (m_levels == 6 && is_dav(m_xml, QLatin1String("collection")))
            m_response.collection = true;
        return true;
    }
    bool close() {
        const bool response = m_levels == 2 && is_dav(m_xml, QLatin1String("response"));
        --m_levels;
        if (!response || m_response.href.isEmpty())
            return true;
        if (m_list.size() >= kMostThings)
            return fail("too many things");
        Listed listed{last_part(m_response.href), m_response.folder};
        if (static_cast<qsizetype>(listed.name.size()) > kLongestName)
            return fail("a name too long");
        m_list.push_back(std::move(listed));
        return true;
    }
    // reading a text ends its element
    bool take_href() {
        m_response.href = m_xml.readElementText(QXmlStreamReader::ErrorOnUnexpectedElement).trimmed();
        --m_levels;
        return m_response.href.size() <= kLongestHref || fail("an address too long");
    }
    bool take_status() {
        const QString status = m_xml.readElementText(QXmlStreamReader::ErrorOnUnexpectedElement);
        --m_levels;
        if (status.contains(QLatin1String(" 200")))
            m_response.folder = m_response.folder || m_response.collection;
        return true;
    }

    QXmlStreamReader m_xml;
    std::vector<Listed> m_list;
    Response m_response;
    int m_levels = 0;
    QString m_problem;
};

} // namespace

Expected<std::vector<Listed>> parse_multistatus(const QByteArray& xml) {
    return Reader(xml).read();
}

} // namespace rillmark::sync
