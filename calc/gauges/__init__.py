"""The water gauge: its cards, boards and scales. Uses sizing and cutting."""
