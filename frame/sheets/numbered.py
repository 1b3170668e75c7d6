"""What a sheet's code calls by number: its place in these tables.

Codes are printed and kept, so nothing here ever moves, goes or is put between: what is new comes
at the end, also a new fact of an old family, which begins a line of its own.
"""

from itertools import chain

from frame.sheets.recipe import Kind, Leaf, Part, Version

KINDS = (
    Kind.READ, Kind.SET, Kind.COLUMNS, Kind.PRODUCTS, Kind.QUOTIENTS, Kind.ROOTS, Kind.PARTNERS,
    Kind.STRIP, Kind.FRAME, Kind.LADDER, Kind.PAPER,
)  # fmt: skip
VERSIONS = (Version.A, Version.B, Version.C)
LEAVES = (Leaf.A4, Leaf.LETTER)
PARTS = (Part.WHOLE, Part.COLUMNS, Part.PRODUCTS, Part.QUOTIENTS, Part.WARM_UP)

GRADES = (
    "kyu-1", "kyu-2", "kyu-3", "kyu-4", "kyu-5", "kyu-6", "kyu-7", "kyu-8", "kyu-9", "kyu-10",
    "dan",
    "mental-kyu-1", "mental-kyu-2", "mental-kyu-3", "mental-kyu-4", "mental-kyu-5",
    "mental-kyu-6", "mental-kyu-7", "mental-kyu-8", "mental-kyu-9", "mental-kyu-10",
    "mental-dan",
    "second-kyu-1", "second-kyu-2", "second-kyu-3", "second-kyu-4", "second-kyu-5",
    "second-kyu-6", "second-kyu-7", "second-kyu-8", "second-kyu-9", "second-kyu-10",
    "second-kyu-11", "second-kyu-12", "second-kyu-13", "second-kyu-14", "second-kyu-15",
    "second-dan",
    "second-mental-kyu-1", "second-mental-kyu-2", "second-mental-kyu-3",
    "second-mental-dan",
)  # fmt: skip

FACT_LINES = (
    ("read-digit-0", "read-digit-1", "read-digit-2", "read-digit-3", "read-digit-4",
     "read-digit-5", "read-digit-6", "read-digit-7", "read-digit-8", "read-digit-9",
     "read-tens", "read-hundreds", "read-thousands"),
    ("set-digit-0", "set-digit-1", "set-digit-2", "set-digit-3", "set-digit-4",
     "set-digit-5", "set-digit-6", "set-digit-7", "set-digit-8", "set-digit-9",
     "set-tens", "set-hundreds", "set-thousands", "clear"),
    ("add-direct-1", "add-direct-2", "add-direct-3", "add-direct-4", "add-direct-5",
     "add-direct-6", "add-direct-7", "add-direct-8", "add-direct-9"),
    ("sub-direct-1", "sub-direct-2", "sub-direct-3", "sub-direct-4", "sub-direct-5",
     "sub-direct-6", "sub-direct-7", "sub-direct-8", "sub-direct-9"),
    ("add-five-1", "add-five-2", "add-five-3", "add-five-4"),
    ("sub-five-1", "sub-five-2", "sub-five-3", "sub-five-4"),
    ("add-ten-1", "add-ten-2", "add-ten-3", "add-ten-4", "add-ten-5", "add-ten-6", "add-ten-7",
     "add-ten-8", "add-ten-9"),
    ("sub-ten-1", "sub-ten-2", "sub-ten-3", "sub-ten-4", "sub-ten-5", "sub-ten-6", "sub-ten-7",
     "sub-ten-8", "sub-ten-9"),
    ("add-ten-five-6", "add-ten-five-7", "add-ten-five-8", "add-ten-five-9"),
    ("sub-ten-five-6", "sub-ten-five-7", "sub-ten-five-8", "sub-ten-five-9"),
    ("ripple-add", "ripple-sub"),
    ("place-product", "multiply-1", "multiply-2", "multiply-3", "skip-zero", "signs"),
    ("divide-1", "divide-2", "place-quotient", "place-quotient-far", "revise-down", "revise-up",
     "remainder"),
    ("decimals", "unit-rod", "round"),
    ("below-zero", "give-back"),
    ("root", "halve", "root-digit", "root-revise"),
)  # fmt: skip
"""Facts by families, in the order in which they are taught: often a sheet asks for a whole line,
or for a few that follow one another."""

FACTS = tuple(chain.from_iterable(FACT_LINES))
