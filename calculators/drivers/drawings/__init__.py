"""What the drivers' calculators draw for the screen. Knows kinds of rows; knows no list of a system's."""
