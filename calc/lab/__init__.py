"""From readings to a judged result: a class's record sheet, its uncertainty, its verdict, and several sheets pooled."""
