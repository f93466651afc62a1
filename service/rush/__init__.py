"""A rush to look at: seeded customers who order at the counter, and hands that work the bar.

Talks to a running shop over HTTP like any display, so what is seen is what a real rush would show.
"""
