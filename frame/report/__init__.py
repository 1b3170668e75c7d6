"""What an adult is told of a learner: figures, their words, the page."""
