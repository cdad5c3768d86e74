"""Sizes and outlines of everything that is cut, in millimetres."""
