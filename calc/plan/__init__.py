"""Planning a demonstration: the lab's kit, what must be raised, the ways that work with it, and why others do not."""
