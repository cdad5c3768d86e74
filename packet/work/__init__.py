"""The plan of work: steps, cautions, schedule, the helper's sheet. Uses the bill."""
