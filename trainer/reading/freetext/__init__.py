"""Free text held against known wordings and against examples of how people say them."""
