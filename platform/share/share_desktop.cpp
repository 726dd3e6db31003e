// SPDX-License-Identifier: GPL-3.0-or-later
#include "share/share_file.h"

namespace rillmark {

bool can_share_files() {
    return false;
}

Expected<void> share_file(const QString& file, const QString&) {
    return refusal("exchange.share_not_here", file.toStdString());
}

} // namespace rillmark
