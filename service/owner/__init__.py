"""The owner's bench, pure: forms of a book, edits, trials, change of brand, costing, training."""
