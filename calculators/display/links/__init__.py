"""What to give up where a mode does not fit its link."""
