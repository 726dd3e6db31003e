// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/nmea_serial_source.h"
#include "position/nmea_tcp_source.h"
#include "position/replay_source.h"
#include "waiting.h"
#include "words/words.h"

#include <QHostAddress>
#include <QTcpServer>
#include <QTemporaryDir>

#include <gtest/gtest.h>

#include <fcntl.h>
#include <limits>
#include <memory>
#include <stdlib.h>
#include <termios.h>
#include <unistd.h>

namespace rillmark::platform {

namespace {

constexpr Backoff kQuick{std::chrono::milliseconds{20}, std::chrono::milliseconds{80}};

QString own_log(const char* name) {
    return QStringLiteral(RILLMARK_SOURCE_DIR "/tests/logs/") + QString::fromLatin1(name);
}

/// A receiver on the loopback that can be switched off and on again at the same port.
struct Receiver {
    QTcpServer server;
    std::unique_ptr<QTcpSocket> client;
    quint16 port = 0;

    bool on() {
        const bool listens = server.listen(QHostAddress::LocalHost, port);
        port = server.serverPort();
        return listens;
    }
    bool accept() {
        if (!wait_until([this] { return server.hasPendingConnections(); }))
            return false;
        client.reset(server.nextPendingConnection());
        return true;
    }
    void say(const QByteArray& bytes) {
        client->write(bytes);
        client->flush();
    }
    void off() {
        client.reset();
        server.close();
    }
};

TEST(NmeaTcpSource, GivesFixesWithoutWaitingForTheNextSecond) {
    Receiver receiver;
    ASSERT_TRUE(receiver.on());
    NmeaTcpSource source(QStringLiteral("127.0.0.1"), receiver.port, kQuick);
    Listener listener(source);
    source.start();
    ASSERT_TRUE(receiver.accept());
    receiver.say("\x00\xff garbage $ " + epoch(0).left(40));
    receiver.say(epoch(1).left(20));
    receiver.say(epoch(1).mid(20));
    EXPECT_FALSE(listener.saw(ReceiverStatus::Fixing));
    receiver.say(epoch(2));
    ASSERT_TRUE(wait_until([&] { return !listener.fixes.empty(); }));
    EXPECT_TRUE(wait_until([&] { return listener.saw(ReceiverStatus::Fixing); }));
    EXPECT_NEAR(listener.fixes.back().latitude_deg, 44.73125, 1e-9);
    EXPECT_EQ(source.state().source, source.name().toStdString());
    EXPECT_TRUE(source.state().accuracy_m);
}

TEST(NmeaTcpSource, ComesBackAfterTheReceiverWasOff) {
    Receiver receiver;
    ASSERT_TRUE(receiver.on());
    NmeaTcpSource source(QStringLiteral("127.0.0.1"), receiver.port, kQuick);
    Listener listener(source);
    source.start();
    ASSERT_TRUE(receiver.accept());
    receiver.say(epoch(1) + epoch(2).left(30)); // cut in mid-sentence
    ASSERT_TRUE(wait_until([&] { return listener.fixes.size() == 1; }));
    receiver.off();
    ASSERT_TRUE(wait_until([&] { return source.state().status == ReceiverStatus::Lost; }));
    EXPECT_EQ(source.state().finding.code, "position.connection_lost");
    ASSERT_TRUE(receiver.on());
    ASSERT_TRUE(receiver.accept());
    receiver.say(epoch(30));
    ASSERT_TRUE(wait_until([&] { return listener.fixes.size() == 2; }));
    EXPECT_EQ(source.state().status, ReceiverStatus::Fixing);
    EXPECT_EQ(source.counts().checksum_wrong, 0u);
}

TEST(NmeaTcpSource, SaysThatNobodyIsThereAndGoesOnTrying) {
    Receiver receiver;
    ASSERT_TRUE(receiver.on()); // to get a free port
    receiver.off();
    NmeaTcpSource source(QStringLiteral("127.0.0.1"), receiver.port, kQuick);
    Listener listener(source);
    source.start();
    ASSERT_TRUE(wait_until([&] { return source.state().finding.code == "position.cannot_connect"; }));
    EXPECT_EQ(source.state().status, ReceiverStatus::NoReceiver);
    ASSERT_TRUE(receiver.on());
    ASSERT_TRUE(receiver.accept());
    receiver.say(epoch(1));
    ASSERT_TRUE(wait_until([&] { return listener.fixes.size() == 1; }));
    source.stop();
    EXPECT_EQ(source.state().status, ReceiverStatus::NoReceiver);
    EXPECT_EQ(source.state().finding.code, "position.stopped");
}

TEST(NmeaTcpSource, QualityZeroAndZeroZeroAreSearching) {
    Receiver receiver;
    ASSERT_TRUE(receiver.on());
    NmeaTcpSource source(QStringLiteral("127.0.0.1"), receiver.port, kQuick);
    Listener listener(source);
    source.start();
    ASSERT_TRUE(receiver.accept());
    for (const char* body : {"GPGGA,120001.00,4443.875,N,11936.150,W,0,00,9.9,1042.0,M,-19.6,M,,",
                             "GPGGA,120002.00,0000.000,N,00000.000,E,1,04,2.0,0.0,M,0.0,M,,"}) {
        receiver.say(QByteArray::fromStdString(fmt::format("${}*{:02X}\r\n", body, nmea_checksum(body))));
    }
    ASSERT_TRUE(wait_until([&] { return source.state().finding.code == "position.zero_zero"; }));
    EXPECT_EQ(source.state().status, ReceiverStatus::Searching);
    EXPECT_TRUE(listener.fixes.empty());
}

TEST(NmeaTcpSource, ASilentReceiverGoesStale) {
    Receiver receiver;
    ASSERT_TRUE(receiver.on());
    NmeaTcpSource source(QStringLiteral("127.0.0.1"), receiver.port, kQuick);
    Listener listener(source);
    source.start();
    ASSERT_TRUE(receiver.accept());
    receiver.say(epoch(1));
    ASSERT_TRUE(wait_until([&] { return listener.saw(ReceiverStatus::Fixing); }));
    ASSERT_TRUE(wait_until([&] { return listener.saw(ReceiverStatus::Stale); }));
    EXPECT_GT(*source.state().age_s, kStaleAfter_s);
    EXPECT_EQ(source.state().finding.code, "position.fix_stale");
    EXPECT_EQ(listener.fixes.size(), 1u);
}

TEST(ReplaySource, PlaysAsFastAsItCan) {
    ReplaySource source(own_log("walk_up_the_creek.nmea"), {std::numeric_limits<double>::infinity(), false});
    Listener listener(source);
    source.start();
    ASSERT_TRUE(wait_until([&] { return source.state().finding.code == "position.log_ended"; }));
    EXPECT_EQ(listener.fixes.size(), 128u);
    EXPECT_EQ(listener.fixes.front().time_utc, "2026-05-14T17:59:00.000Z"); // the log's own time
}

TEST(ReplaySource, KeepsThePaceOfTheLog) {
    QElapsedTimer timer;
    timer.start();
    ReplaySource source(own_log("walk_up_the_creek.nmea"), {100.0, false});
    Listener listener(source);
    source.start();
    ASSERT_TRUE(wait_until([&] { return source.state().finding.code == "position.log_ended"; }));
    EXPECT_GE(timer.elapsed(), 1270); // 127 s at a hundred times
    EXPECT_EQ(listener.fixes.size(), 128u);
}

TEST(ReplaySource, GoesOnThroughFaultsAndBeginsAgain) {
    ReplaySource source(own_log("faults.nmea"), {std::numeric_limits<double>::infinity(), true});
    Listener listener(source);
    source.start();
    ASSERT_TRUE(wait_until([&] { return listener.fixes.size() >= 24; })); // three rounds of eight
    source.stop();
    EXPECT_EQ(listener.fixes[0].time_s, listener.fixes[8].time_s);
    const std::size_t heard = listener.fixes.size();
    wait_until([] { return false; }, 100);
    EXPECT_EQ(listener.fixes.size(), heard);
}

TEST(ReplaySource, MayBeStoppedByWhoeverGetsTheFix) {
    ReplaySource source(own_log("walk_up_the_creek.nmea"), {std::numeric_limits<double>::infinity(), true});
    int heard = 0;
    QObject::connect(&source, &PositionSource::fixReceived, &source, [&] {
        ++heard;
        source.stop();
    });
    source.start();
    ASSERT_TRUE(wait_until([&] { return heard > 0; }));
    wait_until([] { return false; }, 100);
    EXPECT_EQ(heard, 1);
}

TEST(ReplaySource, SaysThatAFileCannotBeRead) {
    const QTemporaryDir folder;
    ReplaySource source(folder.filePath(QStringLiteral("none.nmea")));
    source.start();
    EXPECT_EQ(source.state().status, ReceiverStatus::Error);
    EXPECT_EQ(source.state().finding.code, "position.log_unreadable");
    ReplaySource of_folder(folder.path(), {std::nan(""), true});
    of_folder.start();
    EXPECT_EQ(of_folder.state().finding.code, "position.log_unreadable");
}

TEST(NmeaSerialSource, ReadsAPortThatIsPulledAndPutBack) {
    // A pseudo-terminal stands for the port; its other end for the receiver.
    const int receiver = ::posix_openpt(O_RDWR | O_NOCTTY);
    ASSERT_GE(receiver, 0);
    ASSERT_EQ(::grantpt(receiver), 0);
    ASSERT_EQ(::unlockpt(receiver), 0);
    NmeaSerialSource source(QString::fromLocal8Bit(::ptsname(receiver)), 9600, kQuick);
    Listener listener(source);
    source.start();
    ASSERT_EQ(source.state().status, ReceiverStatus::Searching) << source.state().finding.code;
    const QByteArray bytes = epoch(1) + epoch(2);
    ASSERT_EQ(::write(receiver, bytes.constData(), static_cast<std::size_t>(bytes.size())), bytes.size());
    ASSERT_TRUE(wait_until([&] { return listener.fixes.size() == 2; }));
    ::close(receiver);
    ASSERT_TRUE(wait_until([&] { return source.state().status == ReceiverStatus::Lost; }));
    EXPECT_EQ(source.state().finding.code, "position.connection_lost");
    source.stop();
}

TEST(NmeaSerialSource, SaysThatThereIsNoSuchPort) {
    NmeaSerialSource source(QStringLiteral("/dev/rillmark-no-such-port"), 9600, kQuick);
    source.start();
    EXPECT_EQ(source.state().status, ReceiverStatus::NoReceiver);
    EXPECT_EQ(source.state().finding.code, "position.cannot_connect");
}

TEST(NmeaStreamSource, TakesAnyDevice) {
    Receiver receiver;
    ASSERT_TRUE(receiver.on());
    QTcpSocket device;
    NmeaStreamSource closed(QStringLiteral("stream"), &device);
    closed.start();
    EXPECT_EQ(closed.state().status, ReceiverStatus::Error);
    device.connectToHost(QHostAddress::LocalHost, receiver.port);
    ASSERT_TRUE(receiver.accept());
    ASSERT_TRUE(wait_until([&] { return device.isReadable(); }));
    NmeaStreamSource source(QStringLiteral("stream"), &device);
    Listener listener(source);
    source.start();
    receiver.say(epoch(1));
    ASSERT_TRUE(wait_until([&] { return listener.fixes.size() == 1; }));
    receiver.off();
    EXPECT_TRUE(wait_until([&] { return source.state().status == ReceiverStatus::Lost; }));
}

TEST(Words, EveryStateHasASentence) {
    for (const char* code :
         {"position.no_receiver", "position.searching", "position.fixing", "position.fix_stale", "position.signal_lost",
          "position.cannot_connect", "position.connection_lost", "position.not_permitted", "position.service_off",
          "position.no_system_service", "position.log_unreadable", "position.log_ended", "position.stopped"})
        EXPECT_NE(words::find(code), nullptr) << code;
}

} // namespace

} // namespace rillmark::platform
