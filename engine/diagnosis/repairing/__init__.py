"""Repairs: a cause put right, what then still holds of what was found, and what it costs."""
