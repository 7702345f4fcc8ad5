"""Published (and remembered) figures on forgetting and spacing, as data, each with its source and standing.

``published``: read at the address; ``memory``: from memory, to be looked up before it is cited as a fact.
"""

# Ebbinghaus 1885, savings in percent by delay in days.  Standing: memory (they agree with his own formula
# 1.84 / (log10(minutes)**1.25 + 1.84) to within 4 points).
EBBINGHAUS_SAVINGS = {
    "status": "memory",
    "days": (19 / 1440, 63 / 1440, 8.75 / 24, 1.0, 2.0, 6.0, 31.0),
    "percent": (58.2, 44.2, 35.8, 33.7, 27.8, 25.4, 21.1),
}
# Murre and Dros 2015, a replication with one subject and the same delays: "similar", with a rise at 24 hours.
# Standing: published (the statement); their table was not readable.  https://doi.org/10.1371/journal.pone.0120644

# Cepeda et al. 2008, more than 1,350 people: by test delay in days, the best gap between two study
# sessions.  Standing: published for "about 20 to 40 % of a 1-week delay to about 5 to 10 % of a 1-year
# delay" (https://eric.ed.gov/?id=ED505660); memory for the best gaps themselves.
CEPEDA = {
    "status": "memory",
    "delay_days": (7, 35, 70, 350),
    "gaps_days": ((0, 1, 2, 7, 21, 105), (0, 1, 4, 7, 11, 21, 105), (0, 1, 7, 14, 21, 105), (0, 1, 7, 21, 35, 70, 105)),
    "best_gap_days": (1, 11, 21, 21),
    "gain_percent": (10, 59, 111, 77),
}

# Bahrick et al. 1993: "Thirteen retraining sessions spaced at 56 days yielded retention comparable to 26
# sessions spaced at 14 days", one to five years later.  Standing: published.
# http://www.jstor.org/stable/40063054
BAHRICK = {"status": "published", "few": (13, 56.0), "many": (26, 14.0), "test_days": (365.0, 1826.0)}

# Oermann et al. 2020, resuscitation skill, mean compression score in sessions 1 to 4 by spacing.
# Standing: published.  https://www.ai-bt.com/si.php?db=pubmed&id=31945074
RESUSCITATION = {
    "status": "published",
    "gap_days": (1.0, 7.0, 30.0, 91.0),
    "score": ((61.7, 80.6, 85.5, 90.0), (54.9, 80.3, 84.4, 87.8), (54.8, 77.1, 79.2, 83.2), (59.6, 68.5, 72.2, 80.6)),
}

# Mengelkoch, Adams and Gainer: four months without practice, loss in procedures 16.5 and 20.1 % of two
# groups.  Standing: published for "considerable decrements in the discrete procedural aspects"; memory for
# the percentages.  https://paperexplained.cn/articles/paper/detail/bb5904d783d9ed29255b2d79f7190ea54f1c4bf4
PROCEDURE_LOSS = {"status": "memory", "days": 120.0, "percent": (16.5, 20.1)}

# Tatel and Ackerman (1,344 effects): half of the gain of accuracy tasks is lost after about 6.5 months.
# Standing: published.  https://m.booksci.cn/literature/144199911.htm
SKILL_HALF_LOST = {"status": "published", "months": 6.5}
