"""What an owner turns: amounts for the other sizes, and taste against seconds."""
