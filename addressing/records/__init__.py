"""What passes between the rooms: frozen, slotted records with tuples inside, and no work."""
