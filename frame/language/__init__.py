"""The words the tool shows, taken from assets/words: one place per language."""
