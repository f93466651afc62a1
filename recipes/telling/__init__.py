"""What people are told of a drink: names, words of a line, cautions."""
