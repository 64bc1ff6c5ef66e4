"""Knowledge of one's own."""
