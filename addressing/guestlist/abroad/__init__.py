"""An address abroad, by its country's own rules."""
