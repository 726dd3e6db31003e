// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/real_servers.h"

#include <QDir>
#include <QElapsedTimer>
#include <QFile>
#include <QSslCertificate>
#include <QTcpServer>
#include <QTcpSocket>
#include <QThread>

#include <pwd.h>
#include <unistd.h>

namespace rillmark::testing {

namespace {

constexpr int kStart_ms = 10'000;
constexpr const char* kDavModule = "/usr/lib/nginx/modules/ngx_http_dav_ext_module.so";
constexpr const char* kUsers = "ann:{PLAIN}kolibri-4711\n";

void write(const QString& name, const QString& text) {
    QFile file(name);
    file.open(QIODevice::WriteOnly);
    file.write(text.toUtf8());
}

bool answers(std::uint16_t port) {
    QTcpSocket socket;
    socket.connectToHost(QStringLiteral("127.0.0.1"), port);
    return socket.waitForConnected(200);
}

/// Started as root, Apache serves as another user; that one must reach its folders.
void give_away(const QString& path) {
    const passwd* user = ::geteuid() == 0 ? ::getpwnam("www-data") : nullptr;
    if (user != nullptr && ::chown(path.toUtf8().constData(), user->pw_uid, user->pw_gid) != 0)
        qWarning("chown %s", qPrintable(path));
}

QString apache_configuration() {
    return QStringLiteral(R"(ServerRoot "/usr/lib/apache2"
PidFile "@/pid"
DefaultRuntimeDir "@"
Listen 127.0.0.1:%1
ServerName localhost
LoadModule mpm_event_module modules/mod_mpm_event.so
LoadModule authn_core_module modules/mod_authn_core.so
LoadModule authz_core_module modules/mod_authz_core.so
LoadModule authn_file_module modules/mod_authn_file.so
LoadModule authz_user_module modules/mod_authz_user.so
LoadModule auth_basic_module modules/mod_auth_basic.so
LoadModule auth_digest_module modules/mod_auth_digest.so
LoadModule dav_module modules/mod_dav.so
LoadModule dav_fs_module modules/mod_dav_fs.so
<IfDefine TLS>
LoadModule ssl_module modules/mod_ssl.so
SSLEngine on
SSLCertificateFile "@/cert.pem"
SSLCertificateKeyFile "@/key.pem"
</IfDefine>
StartServers 1
ThreadsPerChild 8
MaxRequestWorkers 8
ErrorLog "@/error.log"
<IfDefine ROOT>
User www-data
Group www-data
</IfDefine>
DocumentRoot "@/root"
DavLockDB "@/lock/db"
<Directory "@/root">
Dav On
<IfDefine PASSWORD>
AuthType Digest
AuthName creeks
AuthUserFile "@/users"
Require valid-user
</IfDefine>
<IfDefine !PASSWORD>
Require all granted
</IfDefine>
</Directory>
)");
}

QString nginx_configuration() {
    return QStringLiteral(R"(load_module %2;
daemon off;
master_process off;
pid "@/pid";
error_log "@/error.log";
events {}
http {
access_log off;
client_max_body_size 0;
client_body_temp_path "@/body";
proxy_temp_path "@/proxy";
fastcgi_temp_path "@/fastcgi";
uwsgi_temp_path "@/uwsgi";
scgi_temp_path "@/scgi";
dav_ext_lock_zone zone=locks:1m;
server {
listen 127.0.0.1:%1 %3;
root "@/root";
%6
location / {
dav_methods PUT DELETE MKCOL %4;
dav_ext_methods PROPFIND OPTIONS %5;
}
}
}
)");
}

} // namespace

std::uint16_t free_port() {
    QTcpServer server;
    server.listen(QHostAddress::LocalHost);
    return server.serverPort();
}

RealServer::RealServer(Kind kind, Manner manner) : m_manner(manner) {
    QFile::setPermissions(m_folder.path(), QFile::Permissions(0x7755)); // the server may be another user
    for (const char* name : {"root", "lock"}) {
        QDir().mkpath(in(name));
        give_away(in(name));
    }
    m_root = std::filesystem::path(in("root").toStdU16String());
    m_port = free_port();
    if (m_manner.tls && !make_certificate())
        return;
    write(in("users"), QString::fromLatin1(kUsers));
    kind == Kind::Apache ? start_apache() : start_nginx();
}

RealServer::~RealServer() {
    m_process.terminate();
    if (!m_process.waitForFinished(3000))
        m_process.kill();
    m_process.waitForFinished(1000);
}

std::string RealServer::url() const {
    return (m_manner.tls ? "https" : "http") + std::string("://127.0.0.1:") + std::to_string(m_port) + "/";
}

bool RealServer::make_certificate() {
    QProcess openssl;
    openssl.start(QStringLiteral("openssl"),
                  {"req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes", "-days", "2",
                   "-subj", "/CN=127.0.0.1", "-addext", "subjectAltName=IP:127.0.0.1", "-keyout", in("key.pem"), "-out",
                   in("cert.pem")});
    openssl.waitForFinished(kStart_ms);
    const QList<QSslCertificate> made = QSslCertificate::fromPath(in("cert.pem"));
    if (made.isEmpty()) {
        m_problem = "openssl made no certificate: " + openssl.readAllStandardError().toStdString();
        return false;
    }
    m_fingerprint = made.first().digest(QCryptographicHash::Sha256).toHex().toStdString();
    return true;
}

void RealServer::start_apache() {
    QString text = apache_configuration().arg(m_port);
    write(in("httpd.conf"), text.replace(QLatin1Char('@'), m_folder.path()));
    QStringList arguments{"-f", in("httpd.conf"), "-D", "FOREGROUND"};
    if (::geteuid() == 0)
        arguments << "-D"
                  << "ROOT";
    if (m_manner.tls)
        arguments << "-D"
                  << "TLS";
    if (m_manner.password) {
        arguments << "-D"
                  << "PASSWORD";
        // user:realm:MD5(user:realm:password), RFC 7616, section 3.4.2
        const QByteArray secret = QCryptographicHash::hash("ann:creeks:kolibri-4711", QCryptographicHash::Md5).toHex();
        write(in("users"), QStringLiteral("ann:creeks:") + QString::fromLatin1(secret) + QLatin1Char('\n'));
    }
    launch(QStringLiteral("/usr/sbin/apache2"), arguments);
}

void RealServer::start_nginx() {
    QString lines;
    if (m_manner.locks)
        lines += QStringLiteral("dav_ext_lock zone=locks;\n");
    if (m_manner.password)
        lines += QStringLiteral("auth_basic creeks;\nauth_basic_user_file \"@/users\";\n");
    if (m_manner.tls)
        lines += QStringLiteral("ssl_certificate \"@/cert.pem\";\nssl_certificate_key \"@/key.pem\";\n");
    QString text = nginx_configuration()
                       .arg(m_port)
                       .arg(QString::fromLatin1(kDavModule), m_manner.tls ? QStringLiteral("ssl") : QString(),
                            m_manner.moves ? QStringLiteral("COPY MOVE") : QString(),
                            m_manner.locks ? QStringLiteral("LOCK UNLOCK") : QString(), lines);
    if (::geteuid() == 0)
        text.prepend(QStringLiteral("user root;\n"));
    write(in("nginx.conf"), text.replace(QLatin1Char('@'), m_folder.path()));
    if (!QFile::exists(QString::fromLatin1(kDavModule))) {
        m_missing = true;
        m_problem = std::string(kDavModule) + " is not there (Debian: libnginx-mod-http-dav-ext)";
        return;
    }
    launch(QStringLiteral("/usr/sbin/nginx"), {"-e", in("error.log"), "-c", in("nginx.conf")});
}

void RealServer::launch(const QString& program, const QStringList& arguments) {
    if (!QFile::exists(program)) {
        m_missing = true;
        m_problem = program.toStdString() + " is not there (see platform/linux/packages.txt)";
        return;
    }
    m_process.setProcessChannelMode(QProcess::MergedChannels);
    m_process.start(program, arguments);
    QElapsedTimer since;
    since.start();
    while (m_process.state() != QProcess::NotRunning && since.elapsed() < kStart_ms) {
        if (answers(m_port))
            return;
        m_process.waitForFinished(20);
    }
    QFile log(in("error.log"));
    log.open(QIODevice::ReadOnly);
    m_problem =
        program.toStdString() + " did not start: " + m_process.readAll().toStdString() + log.readAll().toStdString();
}

} // namespace rillmark::testing
