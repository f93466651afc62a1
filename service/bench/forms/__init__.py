"""A book's files as forms: every key, what it is for, what it takes."""
