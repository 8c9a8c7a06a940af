"""
Viewers' comments sorted and answered: `ask FILE`, the post's page while serving, an episode of picked ones.

May import: calculators, questions, environment, episodes, keeping, new, presenting, serving.
"""
