"""Mistakes of standing: the wrong truss or the wrong place, and what came too early."""
