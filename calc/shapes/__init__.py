"""Lines, circles and flat parts in millimetres, the six faces of a box, and how lengths are said. Uses measures."""
