// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

#include <array>

namespace rillmark::words {

namespace {

constexpr std::array kWords = std::to_array<Word>({
    // the address
    {"exchange.server_address",
     RILLMARK_TR(
         "\"{where}\" is not the address of a folder on a server. Write it like https://cloud.example/dav/creeks, as "
         "your server shows it under WebDAV."),
     ""},
    {"exchange.server_address_scheme",
     RILLMARK_TR("\"{where}\" does not begin with https://, which is what a WebDAV server speaks. Write the address "
                 "with https://."),
     ""},
    {"exchange.server_address_password",
     RILLMARK_TR(
         "There is a name or a password inside the address. Take it out (everything before the @) and enter both in "
         "their own fields: an address is shown and kept."),
     ""},
    {"exchange.server_plain",
     RILLMARK_TR(
         "\"{where}\" is not encrypted: everybody on the way could read your password and the site. Use https://. On a "
         "network that is yours alone you can allow it by hand."),
     ""},
    {"exchange.server_user",
     RILLMARK_TR("A user name cannot hold a colon or a control character, and at most 255 bytes. Look at it again."),
     "RFC 7617, The 'Basic' HTTP Authentication Scheme, section 2"},
    // no answer
    {"exchange.server_unknown",
     RILLMARK_TR(
         "The server's name was not found ({detail}). Is there a network here, and is the address right? Nothing is "
         "lost: send again later."),
     ""},
    {"exchange.server_unreachable",
     RILLMARK_TR(
         "The server could not be reached ({detail}). Is there a network here? Nothing is lost: send again later."),
     ""},
    {"exchange.server_silent",
     RILLMARK_TR("Nothing came from the server for too long. Nothing is lost: send again where the network is better."),
     ""},
    {"exchange.server_cut",
     RILLMARK_TR("The connection broke off ({detail}). Both sides still hold a whole file; send again."), ""},
    {"exchange.server_certificate",
     RILLMARK_TR(
         "The server could not prove that it is the one you named ({detail}). Nothing was sent. Is the date of this "
         "device "
         "right? If the server is your own with a certificate made by yourself, compare its fingerprint with the one "
         "shown here and trust it by hand."),
     ""},
    {"exchange.server_file_too_large",
     RILLMARK_TR("The server sends a file larger than any site can be. It was left there and nothing here was changed. "
                 "Look at the "
                 "address."),
     ""},
    {"exchange.sync_no_room",
     RILLMARK_TR("The file could not be written here ({detail}). Nothing was changed. Make room and send again."), ""},
    {"exchange.sync_cancelled", RILLMARK_TR("Cancelled. Both sides hold a whole file."), ""},
    // an answer that is no success
    {"exchange.server_moved",
     RILLMARK_TR("The server sends us on to {to}. That is not followed, because your password would go along. If you "
                 "trust that "
                 "place, enter it as the address."),
     ""},
    {"exchange.server_password",
     RILLMARK_TR("The server does not take this user name and password. Enter them again; some servers want a password "
                 "of its own "
                 "for each app."),
     ""},
    {"exchange.server_forbidden",
     RILLMARK_TR(
         "The server does not allow this user to write in this folder. Ask whoever runs it, or choose another folder."),
     ""},
    {"exchange.server_no_folder",
     RILLMARK_TR("The folder of this address is not on the server. Make it there, or correct the address."), ""},
    {"exchange.server_no_webdav",
     RILLMARK_TR("There is a server at this address, but it keeps no files this way (no WebDAV). Look in the server's "
                 "help for its "
                 "WebDAV address."),
     ""},
    {"exchange.server_file_refused",
     RILLMARK_TR("The server takes no file as large as this site. Its owner can raise that limit."), ""},
    {"exchange.server_locked",
     RILLMARK_TR(
         "Somebody else is sending to this site at the moment. Nothing is lost: it goes on when they are done."),
     ""},
    {"exchange.server_full",
     RILLMARK_TR("There is no room left on the server. The file there is still the one from before. Make room there "
                 "and send again."),
     ""},
    {"exchange.server_web_page",
     RILLMARK_TR(
         "A web page came in place of the site: this network seems to want a sign-in first, or a proxy answers for the "
         "server. Open a browser, sign in, and send again."),
     ""},
    {"exchange.server_trouble",
     RILLMARK_TR("The server has trouble of its own (answer {status} to {method}). Nothing is lost: send again later."),
     ""},
    {"exchange.server_answer",
     RILLMARK_TR("The server gave an answer that was not expected ({status} to {method}). Nothing here was changed. Is "
                 "it a WebDAV "
                 "address?"),
     ""},
    {"exchange.server_kept_other",
     RILLMARK_TR(
         "The server did not keep the file as it was sent. The file from before is still in its place; send again."),
     ""},
    {"exchange.server_no_guard",
     RILLMARK_TR("This server neither keeps to conditions nor locks, so two people could write over each other's site. "
                 "Nothing was "
                 "sent. Use another server, or switch on WebDAV locks there."),
     "RFC 4918, HTTP Extensions for Web Distributed Authoring and Versioning, sections 6 and 10.4"},
    {"exchange.server_overtaken",
     RILLMARK_TR("Others were quicker every time. What they sent has been taken in here; send again in a while."), ""},
    {"exchange.server_was_overtaken", RILLMARK_TR("Somebody else was quicker: their part is taken in first."), ""},
    // what lies at the server
    {"exchange.server_no_project",
     RILLMARK_TR("What lies at the server in the place of this site is no Rillmark file. Nothing here was changed. "
                 "Look at it, and "
                 "take it away there if it is of no use."),
     ""},
    {"exchange.server_file_damaged",
     RILLMARK_TR("The site's file at the server is damaged ({detail}). Nothing here was changed. Take it away there "
                 "(keep a copy) and "
                 "send again: it is made anew from here."),
     ""},
    {"exchange.server_other_site",
     RILLMARK_TR("The file at the server is of another site. Nothing here was changed. Somebody put it there by hand: "
                 "move it away."),
     ""},
    {"exchange.server_newer",
     RILLMARK_TR("The file at the server was written by a newer version of this program. Nothing was changed. Update "
                 "the program here."),
     ""},
    {"exchange.server_list",
     RILLMARK_TR("The server's list of this folder could not be read ({detail}). Is it a WebDAV address?"),
     "RFC 4918, HTTP Extensions for Web Distributed Authoring and Versioning, section 14"},
    {"exchange.sync_no_key_store",
     RILLMARK_TR("This device has no key store that could be reached, so the password is kept in memory only, until "
                 "the program ends."),
     ""},
    // sharing
    {"exchange.share_failed",
     RILLMARK_TR("The system's share sheet did not open ({detail}). The closed copy lies in the folder for handing "
                 "over: send it from "
                 "there."),
     ""},
    {"exchange.share_not_here",
     RILLMARK_TR("This system has no share sheet. {where} can be sent by any program that sends files."), ""},
    // the desk command
    {"exchange.sync_no_password",
     RILLMARK_TR("There is no terminal to ask for the password at. Put it into the variable {parameter}, or give a "
                 "descriptor."),
     ""},
    {"exchange.sync_no_folder", RILLMARK_TR("{where} is no folder. Make it, or name the folder that holds your sites."),
     ""},
    {"exchange.no_sync_here",
     RILLMARK_TR("This command was built without the part that speaks to servers. Build it with Qt."), ""},
    // the state
    {"exchange.sync_fetching", RILLMARK_TR("Looking at the server, fetching what is new"), ""},
    {"exchange.sync_merging", RILLMARK_TR("Taking in what others found"), ""},
    {"exchange.sync_copying", RILLMARK_TR("Making a closed, checked copy"), ""},
    {"exchange.sync_sending", RILLMARK_TR("Sending"), ""},
    {"exchange.sync_settling", RILLMARK_TR("Making sure of the server's file"), ""},
    {"exchange.sync_waiting", RILLMARK_TR("Waiting to try again"), ""},
    {"exchange.sync_failed", RILLMARK_TR("Not sent"), ""},
    {"exchange.sync_done", RILLMARK_TR("This device and the server hold the same"), ""},
});

} // namespace

std::span<const Word> sync_words() {
    return kWords;
}

} // namespace rillmark::words
