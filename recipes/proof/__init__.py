"""The proof of a book: every combination that can be rung in, resolved and checked before opening."""
