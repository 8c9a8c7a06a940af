"""Display links: what each carries, whether a mode fits, and how far each is carried."""
