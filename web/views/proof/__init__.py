"""Proving a set: points, readings, verdict."""
