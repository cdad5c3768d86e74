"""One module a section of the packet."""
