"""Filled forms read back, and the log that only grows. Uses reading and disk."""
