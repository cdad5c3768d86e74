"""The bill of materials and the cut list as rows. Uses reading, words and calc."""
