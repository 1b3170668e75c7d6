"""Papers of the published grades, taken on the screen, and what is told of marks."""
