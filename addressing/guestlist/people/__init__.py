"""A cell of names becomes people, with what is in doubt about them."""
