"""One module a section of the packet. Uses the kit and the drawings."""
