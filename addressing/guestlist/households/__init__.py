"""Rows become households: gathered, told apart from duplicates, and given keys that last."""
