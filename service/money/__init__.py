"""What an order comes to: whole minor units, tax by rule, and what is due when a cup changes."""
