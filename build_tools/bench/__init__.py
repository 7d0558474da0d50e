"""The speed figures of the site, each against an ordinary page measured in the same run."""
