"""What is marked out and cut: lids, collars, gaskets, circles, sheet layouts, templates, tiles. Uses the box."""
