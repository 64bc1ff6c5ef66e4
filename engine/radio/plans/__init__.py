"""Frequency plans: what every oscillator, counter and line of a synthesised set must read."""
