"""The proof of a book, part by part on every core, and what of it is kept."""
