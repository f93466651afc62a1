"""What sells: the book in force, the menu, builds, and what has run out."""
