"""Sections of an oar: shape, laminated pieces, stiffness, stress."""
