"""An attempt whose export is told word for word."""

from frame.learner.learners import Learner
from frame.learner.rows import Past
from frame.practice.log import Entry, Happening, Log
from frame.technique.beads import BeadMove

WHOSE = Learner("4f0c8a1e2d5b4c679a83b1d2e3f40516", "Otter", "otter")
TOLD = Past(
    at="2026-05-04T09:30:12+00:00", sitting="0b7e6d5c4a394281b7c6d5e4f3a29180", number=3,
    id="9d3c2b1a0f4e4d5c8b6a79685746352f", lesson="practise-shown", exercise="38 + 47", kind="sum",
    rung="covered", asked="shown", origin="set", outcome="wrong plan", rods=2, helps=0, looks=0,
    digits=2, terms=2, seconds=12.6, pace=0.0, own=False, right=False, unaided=False, ended=True,
    places=None, facts=frozenset({"add-direct-1", "add-five-4", "add-ten-7"}),
    slips=("carry-forgotten",),
    answers=("75",), log=Log(entries=(Entry(Happening.STROKE, 900, (BeadMove(0, 3),)),) * 7),
)  # fmt: skip
"""The attempt of which what is exported is told, as a row and as a statement, and whose it is."""
