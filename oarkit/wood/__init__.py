"""Species, moisture, grain slope and variability of clear wood."""
