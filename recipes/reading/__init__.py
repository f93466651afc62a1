"""From the text of a book's files to values, with a fault for everything that cannot be read."""
