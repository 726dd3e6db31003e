// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "sync/patience.h"
#include "sync/remembered.h"
#include "sync/request.h"
#include "sync/server_address.h"

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <variant>

namespace rillmark::sync {

/// Work on the files here that a round asks for.
enum class Task {
    TakeIn,  // check the fetched file and merge it into the one here: then taken_in()
    MakeCopy // make the closed, verified copy of the file here: then copied()
};
struct Wait {
    Milliseconds time{0};
    std::optional<Finding> why; // what went wrong, when it is tried again
};
struct Ended {
    std::optional<Finding> refusal; // none: both sides hold the same
};
using Step = std::variant<Request, Task, Wait, Ended>;

/// What came of taking in the server's file.
struct TakenIn {
    bool server_lacks = false; // the file here holds something that the server's does not
    std::string here_sha256;   // of the closed copy of the file here afterwards
};
struct ClosedCopy {
    std::string sha256;
    std::int64_t size_bytes = 0;
};

/// One round of bringing a site's file here and at a WebDAV server to the same content: a machine without network,
/// clock or files. Whoever drives it does what step() says and tells it what came of it.
///
/// Fetch what the server has (if it changed); take it in; if the server lacks something: upload a closed copy under a
/// passing name, look that it arrived, and put it in place of the file by MOVE, on the condition that the file is still
/// the one that was fetched. If it is not, somebody was quicker: from the start. So the file at the server is at any
/// time a whole one, and nobody's is written over unseen. Where the server cannot MOVE, the file is PUT in its place on
/// the same condition; it is then the server's part that a cut leaves the old one.
/// Some servers ignore conditions: found out once by a condition that cannot hold. There the folder is locked for the
/// last steps (fetched state compared under the lock). A server that knows neither is refused
/// (`exchange.server_no_guard`). Source: RFC 4918 (LOCK 9.10, MOVE 9.9, If 10.4), RFC 9110 (preconditions 13). The
/// order of steps: choice taken here.
class Round {
public:
    /// @param device a name for this device's passing files: letters and digits, always the same
    /// @param random 0..1, for the waits
    Round(ServerAddress server, std::int64_t site_id, std::string device, Remembered remembered, Patience patience,
          std::function<double()> random);

    [[nodiscard]] Step step() const;
    /// The state in words: a code.
    [[nodiscard]] const char* doing() const;

    void answered(const Answer& answer); // to a Request
    void taken_in(const TakenIn& result);
    void copied(const ClosedCopy& copy);
    void waited();
    /// A task or the person ended it.
    void stop(const Finding& why);

    /// To be kept for the next round; right at any time.
    [[nodiscard]] const Remembered& remembered() const { return m_remembered; }
    [[nodiscard]] bool sent() const { return m_sent; }
    [[nodiscard]] bool took_in() const { return m_took_in; }

private:
    enum class Phase {
        Fetch,
        TakeIn,
        Copy,
        MakeFolder,
        Upload,
        CheckUpload,
        Probe,
        Lock,
        CheckLocked,
        Place,
        CheckPlaced,
        Unlock,
        Pause,
        End
    };
    [[nodiscard]] Request request() const;
    [[nodiscard]] Request place_request() const;
    [[nodiscard]] Request probe_request() const;
    void on_fetch(const Answer& answer);
    void on_upload(const Answer& answer);
    void on_check_upload(const Answer& answer);
    void on_probe(const Answer& answer);
    void on_lock(const Answer& answer);
    void on_check_locked(const Answer& answer);
    void on_place(const Answer& answer);
    void on_check_placed(const Answer& answer);
    void send();
    void upload();
    void place();
    void overtaken();
    void without_move();
    void fail(const Answer& answer, Verb verb);
    void try_again(const Finding& why, std::optional<std::chrono::seconds> server_asks);
    void pause(Milliseconds time, Phase then, std::optional<Finding> why = {});
    void end(std::optional<Finding> why);
    /// Lets go of the lock first, where one is held.
    void release_then(Phase then);
    /// The tag of the server's file, where it can be relied on in the next round.
    [[nodiscard]] std::string tag_to_keep() const;

    std::string m_folder; // URLs
    std::string m_file;
    std::string m_passing;
    std::string m_probe;
    Remembered m_remembered;
    Patience m_patience;
    std::function<double()> m_random;

    Phase m_phase = Phase::Fetch;
    Phase m_next = Phase::Fetch; // after Unlock or MakeFolder
    Phase m_after_pause = Phase::Fetch;
    Wait m_wait;
    std::optional<Finding> m_refusal;
    std::string m_lock; // token in its angle brackets
    int m_failed = 0;
    int m_overtaken = 0;
    int m_settled = 0;

    bool m_ask_if_changed = true;
    bool m_there = false;     // the server has a file
    bool m_young = false;     // and it was written this very second
    std::string m_etag;       // its tag as it came
    std::string m_server_sha; // its content
    bool m_server_lacks = false;
    bool m_has_copy = false; // made in this attempt, still to be sent
    bool m_made_folder = false;
    ClosedCopy m_copy;
    std::string m_own_tag; // of what was uploaded
    bool m_sent = false;
    bool m_took_in = false;
};

} // namespace rillmark::sync
