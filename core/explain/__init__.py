"""What an answer or an animal means, laid out for people."""
