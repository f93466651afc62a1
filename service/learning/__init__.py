"""Recipe cards, the allergen sheet, training, and its records."""
