"""The water gauge: its cards and board, and what its readings tell."""
