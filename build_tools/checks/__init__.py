"""What the site is checked against: published examples and tables, worked out by the calculators themselves."""
