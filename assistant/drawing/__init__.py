"""A job drawn from its graph, as text that becomes a picture elsewhere."""
