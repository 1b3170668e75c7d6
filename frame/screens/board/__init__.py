"""The tutor's board."""
