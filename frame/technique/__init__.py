"""What is true of the frame: beads, readings, plans and the judge. Standard library only.

No clock, no file, no chance and no window. What a verdict makes anew at every bead (moves, intents,
verdicts and their like) are NamedTuples, made and imported faster than the frozen dataclasses that
serve everywhere else.
"""
