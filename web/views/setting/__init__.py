"""Setting a set up, step by step."""
