// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/answer.h"
#include "sync/patience.h"
#include "sync/remembered.h"
#include "sync/request.h"

#include <gtest/gtest.h>

namespace {

using namespace rillmark;
using namespace rillmark::sync;
using std::chrono::seconds;

Answer dated(const char* written, const char* now) {
    Answer answer;
    answer.last_modified = written;
    answer.date = now;
    return answer;
}

} // namespace

TEST(HttpDate, TheExampleOfTheStandard) {
    // RFC 9110, section 5.6.7: 784111777 is from memory of `date -d`, checked here by the calendar below
    const auto date = parse_http_date("Sun, 06 Nov 1994 08:49:37 GMT");
    ASSERT_TRUE(date);
    using namespace std::chrono;
    EXPECT_EQ(*date, Seconds(sys_days(year(1994) / November / 6)) + hours(8) + minutes(49) + seconds(37));
}

TEST(HttpDate, RefusesWhatIsNoDate) {
    for (const char* text :
         {"", "Sun, 06 Nov 1994 08:49:37", "Sunday, 06-Nov-94 08:49:37 GMT", "Sun Nov  6 08:49:37 1994",
          "Sun, 31 Feb 1994 08:49:37 GMT", "Sun, 06 Nov 1994 24:00:00 GMT", "Sun, -6 Nov 1994 08:49:37 GMT",
          "Sun, 06 Xyz 1994 08:49:37 GMT", "Sun, 06 Nov 1994 08:49:37 GMT "})
        EXPECT_FALSE(parse_http_date(text)) << text;
}

TEST(EntityTag, IsReadAsTheStandardHasIt) {
    // RFC 9110, section 8.8.3, examples
    ASSERT_TRUE(parse_entity_tag("\"xyzzy\""));
    EXPECT_FALSE(parse_entity_tag("\"xyzzy\"")->weak);
    ASSERT_TRUE(parse_entity_tag("W/\"xyzzy\""));
    EXPECT_TRUE(parse_entity_tag("W/\"xyzzy\"")->weak);
    EXPECT_EQ(parse_entity_tag("W/\"xyzzy\"")->opaque, "\"xyzzy\"");
    EXPECT_TRUE(parse_entity_tag("\"\""));
}

TEST(EntityTag, RefusesWhatMustNotGoBackInAHeader) {
    for (const std::string& text :
         {std::string(), std::string("xyzzy"), std::string("\"a\r\nX: y\""), std::string("\"a\"b\""), std::string("\""),
          std::string("w/\"a\""), '"' + std::string(600, 'a') + '"', std::string("\"a b\"")})
        EXPECT_FALSE(parse_entity_tag(text)) << text;
}

TEST(EntityTag, WeakComparisonOfTheStandard) {
    // RFC 9110, section 8.8.3.2, table 3
    EXPECT_TRUE(same_tag("W/\"1\"", "W/\"1\""));
    EXPECT_FALSE(same_tag("W/\"1\"", "W/\"2\""));
    EXPECT_TRUE(same_tag("W/\"1\"", "\"1\""));
    EXPECT_TRUE(same_tag("\"1\"", "\"1\""));
    EXPECT_FALSE(same_tag("", ""));
}

TEST(Young, OnlyAFileOfThisSecondOrTheLast) {
    EXPECT_TRUE(is_young(dated("Sun, 06 Nov 1994 08:49:37 GMT", "Sun, 06 Nov 1994 08:49:37 GMT")));
    EXPECT_TRUE(is_young(dated("Sun, 06 Nov 1994 08:49:37 GMT", "Sun, 06 Nov 1994 08:49:38 GMT")));
    EXPECT_FALSE(is_young(dated("Sun, 06 Nov 1994 08:49:37 GMT", "Sun, 06 Nov 1994 08:49:39 GMT")));
    EXPECT_FALSE(
        is_young(dated("Sun, 06 Nov 1994 08:49:37 GMT", "Sun, 06 Nov 1994 08:49:36 GMT"))); // its clock was set back
    EXPECT_FALSE(is_young(dated("", "")));
}

TEST(RetryAfter, SecondsOrADateByTheServersOwnClock) {
    Answer answer;
    answer.retry_after = "120";
    EXPECT_EQ(retry_after(answer), seconds(120));
    answer.retry_after = "Sun, 06 Nov 1994 08:50:37 GMT";
    EXPECT_FALSE(retry_after(answer)); // no Date to measure from
    answer.date = "Sun, 06 Nov 1994 08:49:37 GMT";
    EXPECT_EQ(retry_after(answer), seconds(60));
    answer.date = "Sun, 06 Nov 1999 08:49:37 GMT";
    EXPECT_EQ(retry_after(answer), seconds(0));
    for (const char* text : {"", "-5", "5 s", "99999999999999999999"}) {
        answer.retry_after = text;
        EXPECT_FALSE(retry_after(answer)) << text;
    }
}

TEST(BackOff, DoublesUpToTheLongestAndLeavesUpToHalfAway) {
    const Patience patience; // 2 s, 60 s
    EXPECT_EQ(back_off(patience, 1, 0.0, {}), Milliseconds(2000));
    EXPECT_EQ(back_off(patience, 2, 0.0, {}), Milliseconds(4000));
    EXPECT_EQ(back_off(patience, 5, 0.0, {}), Milliseconds(32000));
    EXPECT_EQ(back_off(patience, 6, 0.0, {}), Milliseconds(60000));
    EXPECT_EQ(back_off(patience, 1'000'000'000, 0.0, {}), Milliseconds(60000));
    EXPECT_EQ(back_off(patience, 3, 1.0, {}), Milliseconds(4000));
    EXPECT_EQ(back_off(patience, 3, 7.0, {}), Milliseconds(4000)); // a random number out of its range is cut
}

TEST(BackOff, TheServersWishIsTheLeastAndTooLongIsForAnotherDay) {
    const Patience patience;
    EXPECT_EQ(back_off(patience, 1, 0.5, seconds(30)), Milliseconds(30000));
    EXPECT_EQ(back_off(patience, 6, 0.0, seconds(1)), Milliseconds(60000));
    EXPECT_FALSE(back_off(patience, 1, 0.5, seconds(61)));
    EXPECT_FALSE(back_off(patience, 1, 0.5, seconds(std::numeric_limits<int>::max())));
}

TEST(Remembered, ComesBackAsItWasWritten) {
    for (const Guard guard : {Guard::Unknown, Guard::Condition, Guard::Lock}) {
        const Remembered before{"\"a\\\"", "aa", "bb", guard, false};
        EXPECT_EQ(remembered_of(to_text(before)), before);
    }
    EXPECT_EQ(remembered_of("{}"), Remembered{});
    EXPECT_EQ(remembered_of("{\"etag\": 7, \"guard\": [], \"moves\": \"x\"}"), Remembered{});
    for (const char* text : {"", "[]", "null", "{", "\xff"})
        EXPECT_FALSE(remembered_of(text)) << text;
}

TEST(Failure, EachAnswerHasItsMeaningAndOnlyPassingTroubleIsTriedAgain) {
    struct Case {
        int status;
        const char* code;
        bool may_pass;
    };
    for (const Case& one :
         {Case{301, "exchange.server_moved", false}, Case{401, "exchange.server_password", false},
          Case{403, "exchange.server_forbidden", false}, Case{404, "exchange.server_no_folder", false},
          Case{405, "exchange.server_no_webdav", false}, Case{409, "exchange.server_no_folder", false},
          Case{413, "exchange.server_file_refused", false}, Case{423, "exchange.server_locked", true},
          Case{429, "exchange.server_trouble", true}, Case{500, "exchange.server_trouble", true},
          Case{501, "exchange.server_no_webdav", false}, Case{503, "exchange.server_trouble", true},
          Case{507, "exchange.server_full", false}, Case{511, "exchange.server_web_page", false},
          Case{418, "exchange.server_answer", false}, Case{999, "exchange.server_answer", false}}) {
        Answer answer;
        answer.status = one.status;
        const Failure failure = failure_of(answer, Verb::Put);
        EXPECT_EQ(failure.finding.code, one.code) << one.status;
        EXPECT_EQ(failure.may_pass, one.may_pass) << one.status;
    }
    for (const auto& [fault, may_pass] : {std::pair{Fault::NameUnknown, true},
                                          {Fault::Unreachable, true},
                                          {Fault::Cut, true},
                                          {Fault::Timeout, true},
                                          {Fault::Certificate, false},
                                          {Fault::TooLarge, false},
                                          {Fault::NoRoom, false},
                                          {Fault::Cancelled, false}}) {
        Answer answer;
        answer.fault = fault;
        answer.status = 200; // a fault outweighs the status that came before it
        EXPECT_EQ(failure_of(answer, Verb::Get).may_pass, may_pass);
    }
}
