"""Test sounds as whole samples."""
