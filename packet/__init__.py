"""Project file in, packet out."""
