// SPDX-License-Identifier: GPL-3.0-or-later
package rillmark.field;

import android.content.ClipData;
import android.content.Context;
import android.content.Intent;
import android.net.Uri;

import androidx.core.content.FileProvider;

import java.io.File;

/** Hands one file of the app's own folder to another app, which may read it and nothing else. */
public final class ShareFile {
    private ShareFile() {
    }

    /** Opens the share sheet. Returns what went wrong; empty when nothing did. */
    public static String share(Context context, String path, String title) {
        try {
            Uri uri = FileProvider.getUriForFile(context, context.getPackageName() + ".files", new File(path));
            Intent send = new Intent(Intent.ACTION_SEND);
            send.setType("application/geopackage+sqlite3");
            send.putExtra(Intent.EXTRA_STREAM, uri);
            send.putExtra(Intent.EXTRA_SUBJECT, title);
            send.setClipData(ClipData.newRawUri(title, uri)); // carries the permission through the sheet
            send.addFlags(Intent.FLAG_GRANT_READ_URI_PERMISSION);
            Intent sheet = Intent.createChooser(send, title);
            sheet.addFlags(Intent.FLAG_ACTIVITY_NEW_TASK | Intent.FLAG_GRANT_READ_URI_PERMISSION);
            context.startActivity(sheet);
            return "";
        } catch (RuntimeException problem) { // no app takes it, or the file lies outside the shared folder
            return String.valueOf(problem.getMessage());
        }
    }
}
