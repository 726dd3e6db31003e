// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/report.h"

#include "project/files.h"
#include "report/book.h"
#include "report/pdf_outline.h"
#include "report/sections.h"

#include <QCryptographicHash>
#include <QFile>
#include <QFileInfo>
#include <QLocale>
#include <QPageSize>
#include <QPdfWriter>

#include <algorithm>

namespace rillmark::report {

namespace {

namespace fs = std::filesystem;

constexpr int kDotsAPoint = 20; // of the writer's grid
constexpr double kPointsAnInch = 72.0;
// ISO 216 and ANSI/ASME Y14.1, in points
constexpr QSizeF kA4{595.276, 841.89};
constexpr QSizeF kLetter{612.0, 792.0};

PageForm form_of(Paper paper) {
    return paper == Paper::A4 ? PageForm{kA4, {57.0, 66.0, 57.0, 60.0}} : PageForm{kLetter, {61.0, 62.0, 61.0, 56.0}};
}

QString path_text(const fs::path& path) {
    return QString::fromStdU16String(path.u16string());
}

/// Remembers that a write failed: QFile forgets it with the next one that does not.
class WatchedFile : public QFile {
public:
    using QFile::QFile;
    /// Why; empty where all was written.
    [[nodiscard]] QString failure() {
        if (m_failure.isEmpty() && !flush())
            m_failure = errorString();
        return m_failure;
    }

protected:
    qint64 writeData(const char* data, qint64 bytes) override {
        const qint64 written = QFile::writeData(data, bytes);
        if (written != bytes && m_failure.isEmpty())
            m_failure = errorString();
        return written;
    }

private:
    QString m_failure;
};

FileFacts facts_of(const fs::path& path) {
    FileFacts facts;
    QFile file(path_text(path));
    facts.name = QFileInfo(file).fileName();
    facts.bytes = file.size();
    facts.changes_beside = has_side_files(path);
    QCryptographicHash hash(QCryptographicHash::Sha256);
    if (file.open(QIODevice::ReadOnly) && hash.addData(&file))
        facts.sha256 = hash.result().toHex();
    return facts;
}

std::vector<Built> built_of(const Survey& survey, const SiteEstimate& estimate, const PowerTables& tables, bool all) {
    const AlternativeRow* chosen = survey.alternative();
    std::vector<Built> built;
    if (chosen != nullptr)
        built.push_back({chosen, estimate.chosen});
    for (const Booked<AlternativeRow>& one : survey.alternatives)
        if (all && !one.struck && &one.row != chosen)
            built.push_back({&one.row, alternative_estimate(survey, estimate.heights, estimate.flow, tables, one.row)});
    return built;
}

/// The list of chapters with their pages, at the foot of page one. The pages are known when it is drawn.
void add_contents(Galley& front, const std::shared_ptr<Book>& book, std::size_t chapters) {
    constexpr std::size_t kColumns = 2;
    const std::size_t lines = (chapters + kColumns - 1) / kColumns;
    front.subheading(Report::tr("In this report"));
    front.figure(
        static_cast<double>(lines) * type::kBody.leading + 2.0,
        [book, lines](QPainter& painter, const QRectF& box) {
            const double gap = 24.0;
            const double width = (box.width() - gap) / kColumns;
            std::size_t at = 0;
            for (const Bookmark& one : book->bookmarks) {
                if (one.level != 0)
                    continue;
                const QRectF line(box.left() + static_cast<double>(at / lines) * (width + gap),
                                  box.top() + static_cast<double>(at % lines) * type::kBody.leading, width,
                                  type::kBody.leading);
                const QString page = QString::number(one.page + 1);
                draw_line(painter, line.adjusted(0.0, 0.0, -24.0, 0.0), one.title, type::kBody);
                draw_line(painter, line, page, type::kBody, Qt::AlignRight);
                const double from = line.left() + width_of(one.title, type::kBody) + 5.0;
                const double to = line.right() - width_of(page, type::kBody) - 5.0;
                if (from < to)
                    draw_rule(painter, {from, line.bottom() - 3.2}, {to, line.bottom() - 3.2}, ink::kHair, 0.5);
                ++at;
            }
        },
        2.0);
}

Expected<Context> gather(const Project& project, const Options& options) {
    Expected<Survey> survey = load_survey(project);
    if (!survey)
        return survey.error();
    Expected<PowerTables> tables = read_power_tables();
    if (!tables)
        return tables.error();
    const Expected<std::vector<Booked<FixRow>>> fixes = project.all<FixRow>();
    if (!fixes)
        return fixes.error();
    Context context{
        project, options, Wording(options.display), std::move(tables).value(), std::move(survey).value(), {},
        {},      {},      facts_of(project.path())};
    context.estimate = site_estimate(context.survey, context.tables);
    context.site = export_site(context.survey, context.estimate.heights, *fixes);
    return context;
}

std::size_t chapters_of(const Galley& galley) {
    return static_cast<std::size_t>(
        std::ranges::count_if(galley.pieces(), [](const Piece& one) { return !one.chapter.isEmpty(); }));
}

enum class Drawn { Whole, Cancelled, Failed };

Drawn draw_pages(QIODevice& device, const Book& book, const PageForm& form, const Context& context,
                 const Progress& progress) {
    QPdfWriter writer(&device);
    const int pages = static_cast<int>(book.pages.size());
    writer.setResolution(static_cast<int>(kPointsAnInch) * kDotsAPoint);
    writer.setPageSize(QPageSize(form.size, QPageSize::Point, {}, QPageSize::FuzzyMatch));
    writer.setPageMargins({});
    writer.setTitle(text_of(context.survey.site.name));
    writer.setCreator(QStringLiteral("Rillmark %1").arg(context.options.version));
    const RunningHead head{text_of(context.survey.site.name),
                           QLocale().toString(context.options.now.date(), QLocale::ShortFormat),
                           QStringLiteral("Rillmark %1").arg(context.options.version)};
    QPainter painter(&writer);
    painter.scale(kDotsAPoint, kDotsAPoint);
    for (int page = 0; page < pages; ++page) {
        if (page > 0)
            writer.newPage();
        draw_page(painter, book, page, form, head);
        if (progress && !progress(page + 1, pages))
            return Drawn::Cancelled;
    }
    return painter.end() ? Drawn::Whole : Drawn::Failed;
}

Finding cannot_write(const fs::path& to, const QString& detail) {
    return refusal("exchange.cannot_write", to.string(), {{"detail", detail.toStdString()}});
}

} // namespace

Expected<Made> write_report(const Project& project, const Options& options, const fs::path& to,
                            const Progress& progress) {
    std::error_code ignored;
    if (fs::equivalent(project.path(), to, ignored))
        return refusal("exchange.onto_site", to.string());
    // before the work, so that a wrong folder is told at once
    PassingFile passing(fs::path(to).concat(".part"));
    WatchedFile file(path_text(passing.path()));
    if (!file.open(QIODevice::ReadWrite | QIODevice::Truncate))
        return cannot_write(to, file.errorString());
    load_fonts();
    Expected<Context> context = gather(project, options);
    if (!context)
        return context.error();
    context->alternatives = built_of(context->survey, context->estimate, context->tables, options.all_alternatives);

    const PageForm form = form_of(options.paper);
    Galley galley(form.area().width());
    Galley chapters(form.area().width());
    for (const Section section : sections())
        section(*context, chapters);
    const auto book = std::make_shared<Book>();
    owner_page(*context, galley);
    add_contents(galley, book, chapters_of(chapters));
    galley.append(chapters);
    *book = cut_into_pages(galley, form);

    const Drawn drawn = draw_pages(file, *book, form, *context, progress);
    if (drawn == Drawn::Cancelled)
        return Made{0, true};
    if (drawn == Drawn::Failed || !file.failure().isEmpty())
        return cannot_write(to, file.failure());
    std::vector<OutlineEntry> outline;
    for (const Bookmark& one : book->bookmarks)
        outline.push_back({one.title, one.level, one.page, form.size.height() - one.top});
    const Expected<void> added = append_outline(file, outline);
    if (!file.failure().isEmpty())
        return cannot_write(to, file.failure());
    if (!added)
        return added.error();
    file.close();
    const bool there = fs::exists(fs::symlink_status(to, ignored));
    if (const Expected<void> placed = there ? passing.replace(to) : passing.put_in_place(to); !placed)
        return placed.error();
    return Made{static_cast<int>(book->pages.size()), false};
}

} // namespace rillmark::report
