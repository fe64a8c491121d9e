"""Materials: cord lengths and allowance, the cut list, spools, mass, cost and time."""
