"""The command line: one module for each sub-command, with `add_to(subparsers)` and `run(args)`."""
