// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/pdf_outline.h"

#include <QByteArray>
#include <QRegularExpression>

#include <algorithm>
#include <map>

namespace rillmark::report {

namespace {

constexpr qint64 kTail = 2048; // bytes in which the end of the file is looked for
constexpr qint64 kLongestObject = 1 << 20;

Finding broken(const char* detail) {
    return refusal("exchange.pdf_outline", {}, {{"detail", std::string(detail)}});
}

QByteArray bytes_at(QIODevice& device, qint64 from, qint64 most) {
    return device.seek(from) ? device.read(most) : QByteArray();
}

/// The number behind a key, as in "/Root 3 0 R" or "startxref\n123".
std::optional<qint64> number_after(const QByteArray& text, const QByteArray& key) {
    const qsizetype at = text.lastIndexOf(key);
    if (at < 0)
        return {};
    const QRegularExpressionMatch match = QRegularExpression(QStringLiteral("^\\s*(\\d{1,15})"))
                                              .match(QString::fromLatin1(text.mid(at + key.size(), 32)));
    return match.hasMatch() ? std::optional(match.captured(1).toLongLong()) : std::nullopt;
}

/// The parts of a finished file that an update must name.
struct Structure {
    qint64 table_at = 0;
    qint64 size = 0; // objects, the free one included
    qint64 root = 0;
    QByteArray trailer; // between << and >>
    std::map<qint64, qint64> offset;
};

Expected<Structure> read_structure(QIODevice& device) {
    Structure found;
    const qint64 tail_from = std::max<qint64>(0, device.size() - kTail);
    const std::optional<qint64> table = number_after(bytes_at(device, tail_from, kTail), "startxref");
    if (!table || *table >= device.size())
        return broken("no cross-reference table");
    found.table_at = *table;
    const QByteArray text = bytes_at(device, found.table_at, device.size() - found.table_at);
    const qsizetype trailer = text.indexOf("trailer");
    const qsizetype open = text.indexOf("<<", trailer);
    const qsizetype close = text.indexOf(">>", open);
    if (!text.startsWith("xref") || trailer < 0 || open < 0 || close < 0)
        return broken("not a classic cross-reference table");
    found.trailer = text.mid(open + 2, close - open - 2);
    const std::optional<qint64> root = number_after(found.trailer, "/Root");
    const std::optional<qint64> size = number_after(found.trailer, "/Size");
    if (!root || !size)
        return broken("no catalogue");
    found.root = *root;
    found.size = *size;
    // "first count" and then lines of 20 bytes: offset, generation, n or f
    const QList<QByteArray> words = text.mid(4, trailer - 4).simplified().split(' ');
    for (qsizetype at = 0; at + 1 < words.size();) {
        const qint64 first = words[at].toLongLong();
        const qint64 count = words[at + 1].toLongLong();
        at += 2;
        for (qint64 i = 0; i < count && at + 2 < words.size(); ++i, at += 3)
            if (words[at + 2] == "n")
                found.offset[first + i] = words[at].toLongLong();
    }
    return found;
}

/// What stands between << and >> of an object; the outermost ones.
QByteArray dictionary(QIODevice& device, const Structure& file, qint64 object) {
    const auto at = file.offset.find(object);
    if (at == file.offset.end())
        return {};
    const QByteArray text = bytes_at(device, at->second, kLongestObject);
    const qsizetype open = text.indexOf("<<");
    const qsizetype end = text.indexOf("endobj");
    const qsizetype close = text.lastIndexOf(">>", end);
    return open < 0 || end < 0 || close < open ? QByteArray() : text.mid(open + 2, close - open - 2);
}

std::vector<qint64> pages_of(QIODevice& device, const Structure& file, const QByteArray& catalogue) {
    std::vector<qint64> pages;
    const QByteArray tree = dictionary(device, file, number_after(catalogue, "/Pages").value_or(0));
    const qsizetype open = tree.indexOf('[', tree.indexOf("/Kids"));
    const qsizetype close = tree.indexOf(']', open);
    if (!tree.contains("/Kids") || open < 0 || close < 0)
        return pages;
    const QList<QByteArray> words = tree.mid(open + 1, close - open - 1).simplified().split(' ');
    for (qsizetype i = 0; i + 2 < words.size(); i += 3)
        pages.push_back(words[i].toLongLong());
    return pages;
}

/// A text string in UTF-16 with its mark (ISO 32000-1, 7.9.2.2), in hexadecimal so that nothing needs escaping.
QByteArray text_string(const QString& text) {
    QByteArray bytes("\xfe\xff", 2);
    for (const QChar unit : text) {
        bytes.append(static_cast<char>(unit.unicode() >> 8));
        bytes.append(static_cast<char>(unit.unicode() & 0xff));
    }
    return '<' + bytes.toHex() + '>';
}

/// How the lines hang together, by their index; -1: none.
struct Links {
    int parent = -1;
    int previous = -1;
    int next = -1;
    int first = -1;
    int last = -1;
    int below = 0; // lines in it, at any depth
};

std::vector<Links> linked(const std::vector<OutlineEntry>& entries, Links& root) {
    std::vector<Links> links(entries.size());
    std::vector<int> open; // the line at each level that is still open
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const int self = static_cast<int>(i);
        const auto level =
            static_cast<std::size_t>(std::clamp<int>(entries[i].level, 0, static_cast<int>(open.size())));
        const int parent = level == 0 ? -1 : open[level - 1];
        Links& above = parent < 0 ? root : links[static_cast<std::size_t>(parent)];
        links[i].parent = parent;
        links[i].previous = above.last;
        if (above.last >= 0)
            links[static_cast<std::size_t>(above.last)].next = self;
        else
            above.first = self;
        above.last = self;
        open.resize(level);
        open.push_back(self);
        for (std::size_t up = 0; up < level; ++up)
            ++links[static_cast<std::size_t>(open[up])].below;
    }
    return links;
}

/// The object of a line; -1 is the outline itself.
QByteArray object_of(qint64 outline, int line) {
    return QByteArray::number(outline + 1 + line) + " 0 R";
}

/// The dictionary of one line (ISO 32000-1, table 153) that leads to the page of that object.
QByteArray line_body(const OutlineEntry& one, const Links& links, qint64 outline, qint64 page) {
    QByteArray body = "/Title " + text_string(one.title) + " /Parent " + object_of(outline, links.parent) + " /Dest [" +
                      QByteArray::number(page) + " 0 R /XYZ null " + QByteArray::number(one.top, 'f', 1) + " null]";
    for (const auto& [key, line] : {std::pair("/Prev", links.previous), std::pair("/Next", links.next),
                                    std::pair("/First", links.first), std::pair("/Last", links.last)})
        if (line >= 0)
            body += ' ' + QByteArray(key) + ' ' + object_of(outline, line);
    if (links.below > 0) // below zero: closed until the reader opens it
        body += " /Count " + QByteArray::number(-links.below);
    return body;
}

} // namespace

Expected<void> append_outline(QIODevice& device, const std::vector<OutlineEntry>& entries) {
    if (entries.empty())
        return {};
    const Expected<Structure> file = read_structure(device);
    if (!file)
        return file.error();
    const QByteArray catalogue = dictionary(device, *file, file->root);
    const std::vector<qint64> pages = pages_of(device, *file, catalogue);
    if (catalogue.isEmpty() || catalogue.contains("/Outlines") || pages.empty())
        return broken("no catalogue with a list of pages");

    Links root;
    const std::vector<Links> links = linked(entries, root);
    const qint64 outline = file->size;
    const qint64 begin = device.size();
    QByteArray update("\n");
    std::vector<qint64> offsets;
    const auto add = [&](qint64 object, const QByteArray& body) {
        offsets.push_back(begin + update.size());
        update += QByteArray::number(object) + " 0 obj\n<<" + body + ">>\nendobj\n";
    };
    add(outline, "/Type /Outlines /First " + object_of(outline, root.first) + " /Last " +
                     object_of(outline, root.last) + " /Count " +
                     QByteArray::number(std::count_if(entries.begin(), entries.end(),
                                                      [](const OutlineEntry& one) { return one.level == 0; })));
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const OutlineEntry& one = entries[i];
        if (one.page < 0 || static_cast<std::size_t>(one.page) >= pages.size())
            return broken("a bookmark beyond the last page");
        add(outline + 1 + static_cast<qint64>(i),
            line_body(one, links[i], outline, pages[static_cast<std::size_t>(one.page)]));
    }
    const qint64 catalogue_at = begin + update.size();
    update += QByteArray::number(file->root) + " 0 obj\n<<" + catalogue.trimmed() + "\n/Outlines " +
              QByteArray::number(outline) + " 0 R\n/PageMode /UseOutlines\n>>\nendobj\n";

    const qint64 table_at = begin + update.size();
    const auto line_of = [](qint64 offset) {
        return QByteArray::number(offset).rightJustified(10, '0') + " 00000 n \n";
    };
    update += "xref\n" + QByteArray::number(file->root) + " 1\n" + line_of(catalogue_at);
    update += QByteArray::number(outline) + ' ' + QByteArray::number(offsets.size()) + '\n';
    for (const qint64 offset : offsets)
        update += line_of(offset);
    QByteArray trailer = file->trailer.trimmed();
    trailer.replace("/Size " + QByteArray::number(file->size),
                    "/Size " + QByteArray::number(file->size + static_cast<qint64>(offsets.size())));
    update += "trailer\n<<\n" + trailer + "\n/Prev " + QByteArray::number(file->table_at) + "\n>>\nstartxref\n" +
              QByteArray::number(table_at) + "\n%%EOF\n";
    if (!device.seek(begin) || device.write(update) != update.size())
        return broken("the file could not be written");
    return {};
}

} // namespace rillmark::report
