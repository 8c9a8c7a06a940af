"""The forms of a screen card: full, panel, lower third, title, question, corrected, thumbnail and upright."""
