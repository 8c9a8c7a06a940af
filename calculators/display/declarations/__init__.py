"""What display.declared makes of a declaration: the mode, settings, tables, and invented examples."""
