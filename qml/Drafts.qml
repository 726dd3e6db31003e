// SPDX-License-Identifier: GPL-3.0-or-later
pragma Singleton
import QtQuick
import Rillmark.Ui

/// Half-typed text and open sheets, kept over a kill of the program until they are booked, closed or forgotten.
QtObject {
    // set once by Main.qml
    property ResumeState state: null

    function text(key: string): string {
        return state !== null && key !== "" ? state.text("draft/" + key, "") : ""
    }
    function keep(key: string, text: string) {
        if (state === null || key === "")
            return
        if (text === "")
            state.remove("draft/" + key)
        else
            state.setText("draft/" + key, text)
    }
}
