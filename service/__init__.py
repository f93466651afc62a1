"""Levelscoop service: who ordered what, when, in which order."""
