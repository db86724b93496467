"""Mistakes of temporary bracing: what was let go with nothing to hold it."""
