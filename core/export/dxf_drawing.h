// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/local_frame.h"

#include <ostream>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

/// A flat drawing in metres, gathered and then written as ASCII DXF of release 12 (see dxf.h for the source).
class DxfDrawing {
public:
    void add_point(const std::string& layer, const LocalPoint& at, double height_m);
    void add_text(const std::string& layer, const LocalPoint& at, const std::string& text);
    void add_polyline(const std::string& layer, const std::vector<LocalPoint>& vertices, bool closed);
    void write(std::ostream& out) const;

    /// A name that release 12 takes as a layer's: capital letters, digits, $ - and _, at most 31 of them; others become _.
    [[nodiscard]] static std::string layer_name(std::string_view text);

private:
    struct Text {
        std::string layer;
        LocalPoint at;
        std::string text;
    };
    void reach(const LocalPoint& at);
    std::set<std::string> m_layers;
    std::string m_entities;
    std::vector<Text> m_texts; // their size follows from the size of the drawing
    bool m_empty = true;
    LocalPoint m_least;
    LocalPoint m_most;
};

} // namespace rillmark
