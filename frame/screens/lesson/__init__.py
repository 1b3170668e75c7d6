"""A lesson, or a set practised, under way."""
