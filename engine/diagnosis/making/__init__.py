"""From checked knowledge to a set model: gates, priors, and the words that go with them."""
