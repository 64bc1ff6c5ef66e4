"""Costs: whether to repair now or to measure on, in minutes."""
