"""The names of what is drawn of the harbour; each is a picture `assets/pictures/<name>.svg`."""

ANIMALS = (
    "otter", "seal", "gull", "crab", "heron", "fox",
    "hare", "owl", "turtle", "whale", "cat", "hedgehog",
)  # fmt: skip
"""The people of the harbour, and its learners."""

THINGS = (
    "crate", "net", "lamp", "rope", "herring", "cork", "brick", "ticket", "sail", "barrel",
    "basket", "boat",
)  # fmt: skip
"""What is counted: a picture of each stands for one of it."""

STACK = "stack"
"""Several things one on another."""

SCENERY = (
    STACK, "bollard", "buoy", "stairs", "crane", "ferry", "stall", "scales", "anchor",
    "smokehouse", "lighthouse", "shed", "cart", "gate",
)  # fmt: skip
"""What stands around and is not counted."""

AFLOAT = ("boat", "ferry", "whale", "buoy")
"""What lies in the water behind a quay, where it is not counted."""

DRAWN = (*THINGS, *SCENERY, *ANIMALS)
"""All that a picture of the harbour is made of."""

MOST_IN_SCENE = 4
"""So many stand side by side in one."""
