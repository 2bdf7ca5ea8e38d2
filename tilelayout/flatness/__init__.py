"""How flat a surface is: readings in; gap and rise, verdicts and the least preparation out."""
