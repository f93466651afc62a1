"""What the floor asks over HTTP, and what it is answered."""
