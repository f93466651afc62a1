"""Tickets at the bar, from ring-in to hand-off."""
