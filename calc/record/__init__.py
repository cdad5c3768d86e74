"""The as-built record: what is asked, what was answered, and what it says against the design."""
