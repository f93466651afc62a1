"""Each file adapts one outside thing and decides nothing about orders."""
