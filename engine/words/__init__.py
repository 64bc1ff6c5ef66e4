"""A message in somebody's own words, held against phrases on file; offline, and explainable."""
