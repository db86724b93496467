"""Right attempts drawn at random from the precedence graph, and the same with one mistake planted."""
