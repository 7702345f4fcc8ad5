"""The night itself: one scenario, the sortie flown in it, the card of its numbers, and the debrief."""
