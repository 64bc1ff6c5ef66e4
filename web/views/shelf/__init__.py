"""The shelf of cases."""
