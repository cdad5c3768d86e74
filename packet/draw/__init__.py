"""One drawing model, its pens, words and fonts. Uses words."""
