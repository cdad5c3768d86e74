"""The parts of the sizing report. Uses the kit."""
