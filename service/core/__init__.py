"""Decisions and folds: pure values in, pure values out. No clock, chance, environment, thread or I/O."""
