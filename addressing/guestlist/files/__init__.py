"""The readers: a file of any kind becomes grids of cells, what plain reading loses included."""
