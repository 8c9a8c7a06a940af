"""How much memory work takes, and how long testing takes."""
