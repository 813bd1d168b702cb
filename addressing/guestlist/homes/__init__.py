"""The address of a row: its cells put together, cleared, and given to its country."""
