// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "sync/answer.h"

#include <string>
#include <utility>
#include <vector>

namespace rillmark::sync {

enum class Verb { Get, Head, Put, Move, MakeFolder, Lock, Unlock, Delete, List };
enum class Body { None, ClosedCopy, LockInfo, ListInfo };

/// One request, ready to be sent.
struct Request {
    Verb verb = Verb::Get;
    std::string url;
    std::vector<std::pair<std::string, std::string>> headers;
    Body body = Body::None;
};

/// The name of a verb on the wire. Source: RFC 9110, section 9.3; RFC 4918, section 9.
[[nodiscard]] const char* method_name(Verb verb);

/// The XML of Body::LockInfo (an exclusive write lock; RFC 4918, section 14.11) and of Body::ListInfo (the kind of each
/// thing in a folder; section 14.20). Empty for the others.
[[nodiscard]] std::string body_text(Body body);

/// What an answer that is no success means for the person, and whether it may pass by itself.
struct Failure {
    Finding finding;
    bool may_pass = false;
};
[[nodiscard]] Failure failure_of(const Answer& answer, Verb verb);

} // namespace rillmark::sync
