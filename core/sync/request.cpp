// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/request.h"

namespace rillmark::sync {

namespace {

Failure of_fault(const Answer& answer) {
    const std::vector<Arg> detail{{"detail", answer.detail}};
    switch (answer.fault) {
    case Fault::NameUnknown:
        return {refusal("exchange.server_unknown", {}, detail), true};
    case Fault::Unreachable:
        return {refusal("exchange.server_unreachable", {}, detail), true};
    case Fault::Timeout:
        return {refusal("exchange.server_silent"), true};
    case Fault::Certificate:
        return {refusal("exchange.server_certificate", {}, detail), false};
    case Fault::TooLarge:
        return {refusal("exchange.server_file_too_large"), false};
    case Fault::NoRoom:
        return {refusal("exchange.sync_no_room", {}, detail), false};
    case Fault::Cancelled:
        return {refusal("exchange.sync_cancelled"), false};
    case Fault::Cut:
    case Fault::None:
        break;
    }
    return {refusal("exchange.server_cut", {}, detail), true};
}

} // namespace

const char* method_name(Verb verb) {
    switch (verb) {
    case Verb::Get:
        return "GET";
    case Verb::Head:
        return "HEAD";
    case Verb::Put:
        return "PUT";
    case Verb::Move:
        return "MOVE";
    case Verb::MakeFolder:
        return "MKCOL";
    case Verb::Lock:
        return "LOCK";
    case Verb::Unlock:
        return "UNLOCK";
    case Verb::Delete:
        return "DELETE";
    case Verb::List:
        break;
    }
    return "PROPFIND";
}

std::string body_text(Body body) {
    if (body == Body::LockInfo)
        return R"(<?xml version="1.0" encoding="utf-8"?>)"
               R"(<D:lockinfo xmlns:D="DAV:"><D:lockscope><D:exclusive/></D:lockscope>)"
               R"(<D:locktype><D:write/></D:locktype><D:owner>rillmark</D:owner></D:lockinfo>)";
    if (body == Body::ListInfo)
        return R"(<?xml version="1.0" encoding="utf-8"?>)"
               R"(<D:propfind xmlns:D="DAV:"><D:prop><D:resourcetype/></D:prop></D:propfind>)";
    return {};
}

Failure failure_of(const Answer& answer, Verb verb) {
    if (answer.fault != Fault::None)
        return of_fault(answer);
    const auto refuse = [](const char* code) { return Failure{refusal(code), false}; };
    const int status = answer.status;
    if (status >= 300 && status < 400 && status != 304) // never followed: the password would go along
        return {refusal("exchange.server_moved", {}, {{"to", answer.location}}), false};
    switch (status) {
    case 401:
    case 407:
        return refuse("exchange.server_password");
    case 403:
        return refuse("exchange.server_forbidden");
    case 404:
    case 409:
    case 410:
        return refuse("exchange.server_no_folder");
    case 405: // RFC 9110, section 15.5.6
    case 501:
        return refuse("exchange.server_no_webdav");
    case 413:
        return refuse("exchange.server_file_refused");
    case 423:
        return {refusal("exchange.server_locked"), true}; // RFC 4918, section 11.3
    case 507:
        return refuse("exchange.server_full"); // RFC 4918, section 11.5
    case 511:
        return refuse("exchange.server_web_page"); // RFC 6585, section 6: a network that wants a sign-in
    default:
        break;
    }
    const std::vector<Arg> args{{"status", std::int64_t{status}}, {"method", std::string(method_name(verb))}};
    const bool busy = status == 408 || status == 425 || status == 429 || (status >= 500 && status < 600);
    return {refusal(busy ? "exchange.server_trouble" : "exchange.server_answer", {}, args), busy};
}

} // namespace rillmark::sync
