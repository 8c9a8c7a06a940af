"""Which adapter goes between two kinds of socket."""
