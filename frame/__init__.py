"""An on-screen bead frame with a technique model, guided lessons and exercises."""

__version__ = "0.1.0"
