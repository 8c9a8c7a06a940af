"""Chances, exactly."""
