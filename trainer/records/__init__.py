"""Attempts as they are kept: journal, store, signatures, files."""
