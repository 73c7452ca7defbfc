"""Parts that fit one another."""
