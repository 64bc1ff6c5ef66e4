"""Frequency readings as one piece of evidence on oscillators, programming lines and lock."""
