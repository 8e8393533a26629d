"""The arc of the oar, the paths of hands and blades, and what the hands meet on their way."""
