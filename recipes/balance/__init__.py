"""What a drink is, by calculation: mass, volume, heat, sweetness, strength, energy, cost. Pure functions.

``sucrose`` densities, ``heat`` specific heats and melting, ``load`` what lies together and where it settles,
``energy`` factors of the labels, ``labels`` their rounding, ``outcome`` the balance of a whole build.
"""
