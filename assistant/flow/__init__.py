"""Flows as plain frozen values, and the flat graph that a job is compiled to."""
