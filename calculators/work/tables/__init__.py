"""What is known of work by practice or by a standard, as tables."""
