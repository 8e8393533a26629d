"""An oar as stations along its length: shape, woods, mass, balance, inertia."""
