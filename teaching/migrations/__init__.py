"""The tables and their guards, step by step; each has one purpose and says it in its name."""
