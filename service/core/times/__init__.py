"""How long it all took."""
