// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

#include <array>

namespace rillmark::words {

std::span<const Word> photo_words() {
    static constexpr std::array kWords{
        Word{"photo.empty", RILLMARK_TR("The picture {where} holds nothing: zero bytes. Take or choose it again."), ""},
        Word{"photo.unreadable_file",
             RILLMARK_TR("The picture file {where} could not be read. Check that it is still there and may be opened."),
             ""},
        Word{"photo.too_many_bytes",
             RILLMARK_TR(
                 "The picture {where} has {size_MiB} MiB; at most {limit_MiB} MiB are taken. Choose a smaller one."),
             "common practice, no source"},
        Word{"photo.not_a_picture",
             RILLMARK_TR("{where} is neither a JPEG nor a PNG picture. Save it as one of these and choose it again."),
             ""},
        Word{"photo.cut_short",
             RILLMARK_TR("The picture {where} ends too early: part of it is missing. Copy or take it again."), ""},
        Word{"photo.damaged", RILLMARK_TR("The picture {where} is damaged and cannot be shown. Copy or take it again."),
             ""},
        Word{"photo.too_many_pixels",
             RILLMARK_TR(
                 "The picture {where} is {width} by {height} pixels; at most {limit_megapixel} megapixels of its "
                 "kind are taken. Choose a smaller one."),
             "common practice, no source"},
        Word{
            "photo.too_many_scans",
            RILLMARK_TR("The picture {where} is built up in more than {limit} passes, which no camera does. It was not "
                        "opened; save it anew with another program."),
            "common practice, no source"},
        Word{"photo.no_camera",
             RILLMARK_TR("This device has no camera, or it is unplugged. Choose a picture from a file instead."), ""},
        Word{"photo.camera_denied",
             RILLMARK_TR(
                 "The camera may not be used. Allow it in the system's settings, or choose a picture from a file."),
             ""},
        Word{"photo.camera_failed",
             RILLMARK_TR("The camera did not take the photo ({why}). Try again, or choose a picture from a file."), ""},
        Word{"photo.camera_not_ready",
             RILLMARK_TR("The camera is not ready yet. Wait for its picture, then try again."), ""},
    };
    return kWords;
}

} // namespace rillmark::words
