"""Practice: problems drawn for each seat, answers read fairly, mistakes named, the key for the teacher."""
