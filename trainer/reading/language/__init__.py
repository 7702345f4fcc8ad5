"""Words as people type them: tokens, spelling, forms, abbreviations, words of one meaning and opposites."""
