"""The gate: the shape of flow files that are not known to be sound, all faults at once."""
