"""What is true of the frame: beads, readings, plans and the judge. Standard library only."""
