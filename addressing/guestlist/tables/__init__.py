"""Where the tables of a sheet stand, and what their columns mean."""
