"""Drawings and charts: the station, the oar, and how a figure gets onto a page."""
