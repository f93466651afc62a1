"""How long everything took: a record, one ticket's life, spreads, a day's review."""
