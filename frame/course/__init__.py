"""Lesson scripts: their shape, their loader and checker, and the runner that plays them."""
