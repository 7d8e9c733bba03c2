"""The card for the lid of the drill."""
