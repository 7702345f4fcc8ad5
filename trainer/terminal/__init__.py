"""What a person sees and types."""
