"""Air on its way: ducts, blower, separator, filters, and how they balance. Uses measures and the project."""
