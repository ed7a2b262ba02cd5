"""What follows from owned and followed things."""
