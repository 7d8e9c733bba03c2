"""Real-looking lines and plain questions, and what the program makes of them."""
