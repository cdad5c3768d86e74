"""A whole build: check, outputs, the folder, old forms that are kept. Uses all rooms but the command line."""
