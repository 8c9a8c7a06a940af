"""
The forms of a screen card, one a file: wide, panel, lower third, title and question (large), corrected, thumbnail
(still) and upright. What they share stands in plan and fitting.
"""
