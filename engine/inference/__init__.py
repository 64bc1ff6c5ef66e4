"""Discrete probability: networks, junction trees, information, explanations, cut sets."""
