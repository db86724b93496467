"""Mistakes that show when the roof is handed over."""
