"""What every pose of a frame must be."""

from frame.view.geometry import Pose


def is_possible(pose: Pose) -> bool:
    """Whether no bead overlaps another or leaves its deck."""
    for heaven, *earth in pose.rods:
        if not (0 <= heaven <= 1 and earth[0] >= 0 and earth == sorted(earth) and earth[-1] <= 1):
            return False
    return True
