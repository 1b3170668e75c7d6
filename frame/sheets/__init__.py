"""Sheets and papers as values: what stands on them, whoever prints, calls or marks them."""
