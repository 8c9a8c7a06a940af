"""The test pictures of colour.picture: patterns, drawing and words."""
