"""The points of the scorecard, one file for each of those who ask: each point a function whose doc says how it is judged."""
