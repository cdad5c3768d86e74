"""Lines, circles and flat parts in millimetres, the faces of a box, how parts are called. Uses measures."""
