// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/pdf_outline.h"

#include "report_fixture.h"

#include <QBuffer>
#include <QGuiApplication>
#include <QPainter>
#include <QPdfWriter>

#include <regex>

namespace rillmark::report {

namespace {

using PdfOutlineTest = ReportFixture;

QByteArray pdf_of(int pages) {
    QBuffer buffer;
    buffer.open(QIODevice::ReadWrite);
    QPdfWriter writer(&buffer);
    QPainter painter(&writer);
    for (int page = 0; page < pages; ++page) {
        if (page > 0)
            writer.newPage();
        painter.drawText(200, 200, QStringLiteral("page"));
    }
    painter.end();
    return buffer.data();
}

struct Outlined {
    Expected<void> added;
    QByteArray bytes;
};

Outlined outlined(QByteArray bytes, const std::vector<OutlineEntry>& entries) {
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::ReadWrite);
    Expected<void> added = append_outline(buffer, entries);
    buffer.close();
    return {std::move(added), bytes};
}

} // namespace

TEST_F(PdfOutlineTest, ReadersFindTheLinesAndTheirPages) {
    const QByteArray before = pdf_of(12);
    const Outlined after = outlined(before, {{QStringLiteral("One (a) \\ é 水"), 0, 0, 700.0},
                                             {QStringLiteral("Below one"), 1, 3, 500.0},
                                             {QStringLiteral("Also below"), 1, 4, 400.0},
                                             {QStringLiteral("Two"), 0, 11, 100.0}});
    ASSERT_TRUE(after.added.ok()) << after.added.error().code;
    EXPECT_TRUE(after.bytes.startsWith(before)) << "an update leaves what was written";
    QFile file(QString::fromStdString(pdf().string()));
    ASSERT_TRUE(file.open(QIODevice::WriteOnly) && file.write(after.bytes) == after.bytes.size());
    file.close();
    const std::string xml = tool_to("pdftohtml -xml -i -stdout", "");
    const std::regex whole(
        "<outline>\\s*<item page=\"1\">One \\(a\\) \\\\ é 水</item>\\s*<outline>\\s*<item page=\"4\">Below "
        "one</item>\\s*"
        "<item page=\"5\">Also below</item>\\s*</outline>\\s*<item page=\"12\">Two</item>\\s*</outline>");
    EXPECT_TRUE(std::regex_search(xml, whole))
        << xml.substr(xml.find("<outline>") == std::string::npos ? 0 : xml.find("<outline>"));
    EXPECT_NE(tool("pdfinfo").find("Pages:           12"), std::string::npos);
    // an update of an update is refused: there is an outline
    EXPECT_FALSE(outlined(after.bytes, {{QStringLiteral("x"), 0, 0, 0.0}}).added.ok());
}

TEST_F(PdfOutlineTest, WithoutLinesNothingIsWritten) {
    const QByteArray before = pdf_of(1);
    const Outlined after = outlined(before, {});
    EXPECT_TRUE(after.added.ok());
    EXPECT_TRUE(after.bytes == before);
}

TEST_F(PdfOutlineTest, RefusesWhatItDoesNotUnderstandAndLeavesItAlone) {
    const std::vector<OutlineEntry> entries{{QStringLiteral("x"), 0, 0, 0.0}};
    QByteArray no_table = pdf_of(1);
    no_table.replace("startxref", "startxxxx");
    QByteArray no_trailer = pdf_of(1);
    no_trailer.replace("trailer", "traaaaa");
    QByteArray no_root = pdf_of(1);
    no_root.replace("/Root", "/Toot");
    QByteArray no_pages = pdf_of(1);
    no_pages.replace("/Kids", "/Bids");
    QByteArray far_table = pdf_of(1);
    far_table.replace("startxref\n", "startxref\n99");
    for (const QByteArray& bad : {QByteArray(), QByteArray("%PDF-1.4\n%%EOF"), no_table, no_trailer, no_root, no_pages,
                                  far_table, pdf_of(1).left(300)}) {
        const Outlined after = outlined(bad, entries);
        ASSERT_FALSE(after.added.ok());
        EXPECT_EQ(after.added.error().code, "exchange.pdf_outline");
        EXPECT_TRUE(after.bytes == bad);
    }
    const QByteArray good = pdf_of(2);
    for (const int page : {-1, 2}) {
        const Outlined after = outlined(good, {{QStringLiteral("x"), 0, page, 0.0}});
        EXPECT_FALSE(after.added.ok());
        EXPECT_TRUE(after.bytes == good);
    }
}

} // namespace rillmark::report

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen"); // also where the tests are only listed
    const QGuiApplication application(argc, argv);
    testing::InitGoogleTest(&argc, argv);
    return RUN_ALL_TESTS();
}
