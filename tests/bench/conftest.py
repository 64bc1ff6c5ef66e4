# Its library, loaded under warnings as errors, takes the whole interpreter down.
collect_ignore = ["step_against_pyagrum.py"]
