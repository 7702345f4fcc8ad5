"""Simulated learners practise with the trainer's planner and with simpler rules, at matched minutes."""
