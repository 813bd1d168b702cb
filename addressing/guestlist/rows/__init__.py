"""One row of a table, read: its people, its address, and what its other cells say of both."""
