"""The command line: what each command does, questions at the terminal, watching, faults. Uses every room."""
