"""The as-built record: what is asked, what was answered, what readings tell. Uses all of calc but the design."""
