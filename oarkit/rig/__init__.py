"""Where the pins stand, how long the oars are, and what the heights leave room for."""
