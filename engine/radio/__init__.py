"""Arithmetic of the trade: units, power and voltage, readings as people write them."""
