"""The knowledge of a set to leaf through: blocks, causes, checks, signals, fault trees."""
