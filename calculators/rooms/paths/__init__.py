"""Ways from one room to another: what each carries, how far, how late, and what it asks."""
