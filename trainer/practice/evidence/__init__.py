"""What the reviews of one pilot show, and those of a squadron: the content of reports.  Pages only render it."""
