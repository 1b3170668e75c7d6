"""The tutor's room: a class and what it needs, and giving work."""
