// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/round.h"

#include <fmt/format.h>

namespace rillmark::sync {

namespace {

// A tag that no file has: a condition on it can only fail.
constexpr const char* kNoSuchTag = "\"rillmark-no-such-tag\"";
constexpr const char* kNoSuchState = "[\"rillmark-no-such-tag\"]";
// Long enough for three short requests over a slow link; the server frees it by itself when we die in between.
constexpr const char* kLockTime = "Second-120";
constexpr int kMostSettles = 2;

bool done(const Answer& answer) {
    return answer.fault == Fault::None && (answer.status == 200 || answer.status == 201 || answer.status == 204);
}

bool status_is(const Answer& answer, std::initializer_list<int> any) {
    for (const int status : any)
        if (answer.fault == Fault::None && answer.status == status)
            return true;
    return false;
}

/// MOVE is not known, or the server behind a proxy takes the destination for a foreign one (RFC 4918, section 9.9.4).
bool cannot_move(const Answer& answer) {
    return status_is(answer, {400, 405, 501, 502});
}

std::string condition(const std::string& url, const std::string& state) {
    return fmt::format("<{}> ({})", url, state); // RFC 4918, section 10.4.2, Tagged-list
}

std::string strong(const std::string& etag) {
    const auto tag = parse_entity_tag(etag);
    return tag ? tag->opaque : std::string();
}

/// A coded URL as it may be sent back in a header. Source: RFC 4918, section 10.5.
bool is_lock_token(const std::string& token) {
    constexpr std::size_t kLongest = 512;
    if (token.size() < 3 || token.size() > kLongest || token.front() != '<' || token.back() != '>')
        return false;
    for (std::size_t i = 1; i + 1 < token.size(); ++i)
        if (token[i] <= ' ' || token[i] == '<' || token[i] == '>' || static_cast<unsigned char>(token[i]) >= 0x7F)
            return false;
    return true;
}

} // namespace

Round::Round(ServerAddress server, std::int64_t site_id, std::string device, Remembered remembered, Patience patience,
             std::function<double()> random)
    : m_folder(url_of(server) + site_folder(site_id) + "/"), m_file(m_folder + std::string(kSiteFile)),
      m_passing(m_folder + "sending-" + encode_segment(device) + ".gpkg"),
      m_probe(m_folder + "trying-" + encode_segment(device) + ".gpkg"), m_remembered(std::move(remembered)),
      m_patience(patience), m_random(std::move(random)) {}

Step Round::step() const {
    switch (m_phase) {
    case Phase::TakeIn:
        return Task::TakeIn;
    case Phase::Copy:
        return Task::MakeCopy;
    case Phase::Pause:
        return m_wait;
    case Phase::End:
        return Ended{m_refusal};
    default:
        break;
    }
    return request();
}

const char* Round::doing() const {
    switch (m_phase) {
    case Phase::Fetch:
        return "exchange.sync_fetching";
    case Phase::TakeIn:
        return "exchange.sync_merging";
    case Phase::Copy:
        return "exchange.sync_copying";
    case Phase::Pause:
        return m_wait.why ? "exchange.sync_waiting" : "exchange.sync_settling";
    case Phase::End:
        return m_refusal ? "exchange.sync_failed" : "exchange.sync_done";
    default:
        break;
    }
    return "exchange.sync_sending";
}

Request Round::request() const {
    switch (m_phase) {
    case Phase::MakeFolder:
        return {Verb::MakeFolder, m_folder, {}};
    case Phase::Upload:
        return {Verb::Put, m_passing, {}, Body::ClosedCopy};
    case Phase::CheckUpload:
        return {Verb::Head, m_passing, {}};
    case Phase::Probe:
        return probe_request();
    case Phase::Lock:
        return {Verb::Lock, m_folder, {{"Timeout", kLockTime}, {"Depth", "infinity"}}, Body::LockInfo};
    case Phase::CheckLocked:
    case Phase::CheckPlaced:
        return {Verb::Head, m_file, {}};
    case Phase::Place:
        return place_request();
    case Phase::Unlock:
        return {Verb::Unlock, m_folder, {{"Lock-Token", m_lock}}};
    default:
        break;
    }
    Request fetch{Verb::Get, m_file, {}};
    if (m_ask_if_changed && !m_remembered.etag.empty())
        fetch.headers.emplace_back("If-None-Match", m_remembered.etag);
    return fetch;
}

Request Round::probe_request() const {
    if (!m_remembered.moves)
        return {Verb::Put, m_probe, {{"If-Match", kNoSuchTag}}};
    return {Verb::Move,
            m_passing,
            {{"Destination", m_probe}, {"Overwrite", "T"}, {"If", condition(m_passing, kNoSuchState)}}};
}

Request Round::place_request() const {
    const bool locked = !m_lock.empty();
    if (!m_remembered.moves) {
        Request put{Verb::Put, m_file, {}, Body::ClosedCopy};
        if (locked)
            put.headers.emplace_back("If", condition(m_folder, m_lock));
        else if (m_there)
            put.headers.emplace_back("If-Match", strong(m_etag));
        else
            put.headers.emplace_back("If-None-Match", "*");
        return put;
    }
    Request move{Verb::Move, m_passing, {{"Destination", m_file}, {"Overwrite", m_there ? "T" : "F"}}};
    if (locked)
        move.headers.emplace_back("If", condition(m_folder, m_lock));
    else if (m_there)
        move.headers.emplace_back("If", condition(m_file, fmt::format("[{}]", strong(m_etag))));
    return move;
}

void Round::answered(const Answer& answer) {
    switch (m_phase) {
    case Phase::Fetch:
        return on_fetch(answer);
    case Phase::MakeFolder:
        if (!done(answer) && !status_is(answer, {405})) // it is there already (RFC 4918, section 9.3.1)
            return fail(answer, Verb::MakeFolder);
        m_made_folder = true;
        m_phase = m_next;
        return;
    case Phase::Upload:
        return on_upload(answer);
    case Phase::CheckUpload:
        return on_check_upload(answer);
    case Phase::Probe:
        return on_probe(answer);
    case Phase::Lock:
        return on_lock(answer);
    case Phase::CheckLocked:
        return on_check_locked(answer);
    case Phase::Place:
        return on_place(answer);
    case Phase::CheckPlaced:
        return on_check_placed(answer);
    case Phase::Unlock: // whatever it says: the lock runs out by itself
        m_lock.clear();
        m_phase = m_next;
        return;
    default:
        break;
    }
}

void Round::on_fetch(const Answer& answer) {
    if (status_is(answer, {304}) && m_ask_if_changed && !m_remembered.etag.empty()) {
        m_there = true;
        m_young = false;
        m_etag = m_remembered.etag;
        m_server_sha = m_remembered.server_sha256;
        m_phase = Phase::Copy;
        return;
    }
    if (status_is(answer, {404, 410})) {
        m_there = false;
        m_made_folder = false;
        if (m_has_copy)
            upload();
        else
            m_phase = Phase::Copy;
        return;
    }
    if (!status_is(answer, {200}))
        return fail(answer, Verb::Get);
    m_there = true;
    m_etag = answer.etag;
    m_young = is_young(answer);
    const bool known = answer.body_sha256 == m_server_sha || answer.body_sha256 == m_remembered.server_sha256;
    m_server_sha = answer.body_sha256;
    if (!known) {
        m_has_copy = false;
        m_phase = Phase::TakeIn;
    } else if (m_has_copy) {
        send();
    } else {
        m_phase = Phase::Copy;
    }
}

void Round::taken_in(const TakenIn& result) {
    m_took_in = true;
    m_server_lacks = result.server_lacks;
    m_remembered.etag = tag_to_keep();
    m_remembered.server_sha256 = m_server_sha;
    m_remembered.here_sha256 = result.server_lacks ? std::string() : result.here_sha256;
    if (result.server_lacks)
        m_phase = Phase::Copy;
    else
        end({});
}

void Round::copied(const ClosedCopy& copy) {
    m_copy = copy;
    if (m_there && !m_server_lacks && copy.sha256 == m_remembered.here_sha256) {
        m_remembered.etag = tag_to_keep();
        return end({});
    }
    m_has_copy = true;
    send();
}

std::string Round::tag_to_keep() const {
    return m_young || strong(m_etag) != m_etag ? std::string() : m_etag;
}

void Round::send() {
    const bool comparable = parse_entity_tag(m_etag).has_value();
    const bool reliable = !m_young && (m_remembered.guard == Guard::Lock || strong(m_etag) == m_etag);
    if (!m_there || (comparable && reliable))
        return upload();
    if (!comparable || m_settled >= kMostSettles)
        return end(refusal("exchange.server_no_guard"));
    ++m_settled;
    m_ask_if_changed = false;
    pause(m_patience.settle, Phase::Fetch);
}

void Round::upload() {
    m_phase = m_remembered.moves ? Phase::Upload : m_remembered.guard == Guard::Unknown ? Phase::Probe : Phase::Place;
    if (m_phase == Phase::Place)
        place();
    if (!m_there && !m_made_folder) {
        m_next = m_phase;
        m_phase = Phase::MakeFolder;
    }
}

void Round::on_upload(const Answer& answer) {
    if (done(answer))
        m_phase = Phase::CheckUpload;
    else
        fail(answer, Verb::Put);
}

void Round::on_check_upload(const Answer& answer) {
    if (!status_is(answer, {200}))
        return fail(answer, Verb::Head);
    if (answer.length_bytes && *answer.length_bytes != m_copy.size_bytes)
        return try_again(refusal("exchange.server_kept_other"), {});
    m_own_tag = answer.etag;
    if (m_remembered.guard == Guard::Unknown)
        m_phase = Phase::Probe;
    else
        place();
}

void Round::on_probe(const Answer& answer) {
    if (status_is(answer, {412})) {
        m_remembered.guard = Guard::Condition;
    } else if (done(answer)) {
        m_remembered.guard = Guard::Lock;
        if (m_remembered.moves)
            std::swap(m_passing, m_probe); // it has gone there
    } else if (m_remembered.moves && cannot_move(answer)) {
        return without_move();
    } else {
        return fail(answer, m_remembered.moves ? Verb::Move : Verb::Put);
    }
    place();
}

void Round::place() {
    m_phase = m_remembered.guard == Guard::Lock ? Phase::Lock : Phase::Place;
}

void Round::on_lock(const Answer& answer) {
    if (done(answer) && is_lock_token(answer.lock_token)) {
        m_lock = answer.lock_token;
        m_phase = Phase::CheckLocked;
    } else if (done(answer) || status_is(answer, {400, 403, 405, 501})) {
        end(refusal("exchange.server_no_guard"));
    } else {
        fail(answer, Verb::Lock);
    }
}

void Round::on_check_locked(const Answer& answer) {
    const bool still_none = !m_there && status_is(answer, {404, 410});
    const bool still_same = m_there && status_is(answer, {200}) && same_tag(answer.etag, m_etag);
    if (still_none || still_same)
        m_phase = Phase::Place;
    else if (status_is(answer, {200, 404, 410}))
        overtaken();
    else
        fail(answer, Verb::Head);
}

void Round::on_place(const Answer& answer) {
    if (status_is(answer, {412}))
        return overtaken();
    if (m_remembered.moves && cannot_move(answer))
        return without_move();
    if (!done(answer))
        return fail(answer, m_remembered.moves ? Verb::Move : Verb::Put);
    if (!m_remembered.moves)
        m_own_tag = answer.etag; // RFC 9110, section 9.3.4: only sent when the file was kept as it came
    m_sent = true;
    m_there = true;
    m_server_lacks = false;
    m_remembered.etag.clear();
    m_remembered.server_sha256 = m_copy.sha256;
    m_remembered.here_sha256 = m_copy.sha256;
    m_settled = 0;
    m_phase = Phase::CheckPlaced;
}

void Round::on_check_placed(const Answer& answer) {
    // Only a tag that is surely that of our own bytes is kept; without one the next round fetches the file again.
    const bool ours = status_is(answer, {200}) && same_tag(answer.etag, m_own_tag) &&
                      answer.length_bytes.value_or(m_copy.size_bytes) == m_copy.size_bytes;
    const bool reliable = strong(answer.etag) == answer.etag && !is_young(answer);
    if (ours && reliable)
        m_remembered.etag = answer.etag;
    else if (ours && m_settled < 1 && m_patience.settle.count() > 0) {
        ++m_settled;
        pause(m_patience.settle, Phase::CheckPlaced);
        return release_then(Phase::Pause);
    }
    end({});
}

void Round::overtaken() {
    ++m_overtaken;
    if (m_overtaken > m_patience.overtaken)
        return end(refusal("exchange.server_overtaken"));
    m_ask_if_changed = false;
    m_settled = 0;
    const auto spread =
        static_cast<Milliseconds::rep>(static_cast<double>(m_patience.first.count()) * 0.25 * m_random());
    pause(Milliseconds(spread), Phase::Fetch, note("exchange.server_was_overtaken"));
    release_then(Phase::Pause);
}

void Round::without_move() {
    m_remembered.moves = false;
    m_remembered.guard = Guard::Unknown;
    release_then(Phase::Probe);
}

void Round::fail(const Answer& answer, Verb verb) {
    const Failure failure = failure_of(answer, verb);
    if (!failure.may_pass)
        return end(failure.finding);
    try_again(failure.finding, retry_after(answer));
}

void Round::try_again(const Finding& why, std::optional<std::chrono::seconds> server_asks) {
    ++m_failed;
    const auto wait = back_off(m_patience, m_failed, m_random(), server_asks);
    if (m_failed >= m_patience.attempts || !wait)
        return end(why);
    m_settled = 0;
    pause(*wait, Phase::Fetch, why);
    release_then(Phase::Pause);
}

void Round::pause(Milliseconds time, Phase then, std::optional<Finding> why) {
    m_wait = {time, std::move(why)};
    m_after_pause = then;
    m_phase = Phase::Pause;
}

void Round::waited() {
    if (m_phase == Phase::Pause)
        m_phase = m_after_pause;
}

void Round::end(std::optional<Finding> why) {
    m_refusal = std::move(why);
    release_then(Phase::End);
}

void Round::stop(const Finding& why) {
    end(why);
}

void Round::release_then(Phase then) {
    m_next = then;
    m_phase = m_lock.empty() ? then : Phase::Unlock;
}

} // namespace rillmark::sync
