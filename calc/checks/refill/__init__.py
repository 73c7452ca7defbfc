"""From an outlet, a generator or the sun."""
