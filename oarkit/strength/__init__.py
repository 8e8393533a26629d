"""Loads on an oar, how it bends under them, and how far that is from breaking."""
