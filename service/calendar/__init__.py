"""The business day."""
