"""What happens to codes: ranges, subsampling, and transfer functions."""
