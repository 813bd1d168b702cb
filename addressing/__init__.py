"""From a client's guest list to proved envelope plates."""
