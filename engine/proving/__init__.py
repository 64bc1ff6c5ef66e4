"""The proof: whether a set keeps its rule set, as far as the instruments can tell."""
