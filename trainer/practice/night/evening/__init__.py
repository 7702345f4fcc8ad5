"""One evening at the ship: what is given, what follows from it, what must hold."""
