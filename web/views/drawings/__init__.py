"""Drawings of how a check is made, each with the same in words beside it."""
