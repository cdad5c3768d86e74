"""What is marked out and cut: lids, collars, gaskets, circles, sheet layouts, templates and their tiles. Uses the box."""
