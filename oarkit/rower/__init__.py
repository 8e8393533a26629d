"""Body sizes from stature and mass."""
