"""Letters to an owner and what comes back."""
