"""Edits of a book's text, where a person would make them."""
