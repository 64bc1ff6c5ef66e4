"""Setting up: in which order a set is adjusted, what must be done again, and whether it holds."""
