"""Mistakes of fixing: gaps in the path from roof to wall."""
