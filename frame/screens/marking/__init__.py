"""Sheets that were worked on paper: marked by their answers, or called."""
