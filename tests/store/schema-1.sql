-- A database of schema 1 with invented answers (tests/store/invented.py), as it was released.  Never change it.
BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'trainer','1: reviews, states, events','2026-11-25 14:18:41.022027+00:00');
CREATE TABLE before (
        review_id INTEGER NOT NULL REFERENCES review (id),
        item TEXT NOT NULL,
        state BLOB,
        last_review INTEGER,
        learner BLOB,
        PRIMARY KEY (review_id, item)
    ) STRICT, WITHOUT ROWID;
CREATE TABLE belief (
        item TEXT PRIMARY KEY,
        state BLOB NOT NULL,
        last_review INTEGER NOT NULL REFERENCES review (id)
    ) STRICT, WITHOUT ROWID;
INSERT INTO "belief" VALUES('fix-0',X'EE7D9C384297D78A720D8FEB19F2A6A2DF41951F206C3EB8729F0DA088D3EC8A',6);
INSERT INTO "belief" VALUES('fix-1',X'54850F1F517479141BC7C70E52E08EDB5586D38AF1C5720385A3F6D6305A89A0',7);
INSERT INTO "belief" VALUES('fix-2',X'F84D25EF885A3A7CA532CAE1D89992C029CE66BAEA333C4EF2459DDCB550426C',8);
INSERT INTO "belief" VALUES('fix-3',X'56123A643A68012BB25C441A6680CD66208C74670ACD0E3BF04ADC201962FE03',4);
INSERT INTO "belief" VALUES('fix-4',X'893BC7C29CD471C7781BC088D6378C298CEE9EDBEE8F800369B2A1EE43713339',5);
CREATE TABLE debrief (
        id INTEGER PRIMARY KEY,
        flown TEXT NOT NULL CHECK (length(flown) = 10),
        remarks TEXT NOT NULL,
        phases TEXT NOT NULL,
        created TEXT NOT NULL CHECK (length(created) = 24)
    ) STRICT;
INSERT INTO "debrief" VALUES(1,'2026-12-11','invented','{"marshal":"late"}','2026-12-04T20:00:00.123Z');
CREATE TABLE event (
        id INTEGER PRIMARY KEY,
        name TEXT NOT NULL,
        at TEXT NOT NULL CHECK (length(at) = 24),
        offset_min INTEGER NOT NULL,
        minutes_per_day REAL NOT NULL CHECK (minutes_per_day > 0),
        areas TEXT NOT NULL,
        standard TEXT NOT NULL,
        created TEXT NOT NULL CHECK (length(created) = 24)
    ) STRICT;
INSERT INTO "event" VALUES(1,'qualification night','2026-12-04T20:00:00.123Z',0,10.0,'["marshal"]','','2026-12-04T20:00:00.123Z');
CREATE TABLE flag (
        id INTEGER PRIMARY KEY,
        drill_id TEXT NOT NULL,
        deck TEXT NOT NULL,
        deck_hash TEXT NOT NULL,
        question TEXT NOT NULL,
        review_id INTEGER REFERENCES review (id),
        at TEXT NOT NULL CHECK (length(at) = 24),
        note TEXT NOT NULL
    ) STRICT;
INSERT INTO "flag" VALUES(1,'fix-1','invented','aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa','{"drill":"fix-1"}',2,'2026-12-04T20:00:00.123Z','');
CREATE TABLE learner (id INTEGER PRIMARY KEY CHECK (id = 1), state BLOB NOT NULL) STRICT;
INSERT INTO "learner" VALUES(1,X'12FF558AC2840227D6158EDB8C7A66D4EA117DBE9E96B7805AC87B042D13CB25');
CREATE TABLE opening (id INTEGER PRIMARY KEY CHECK (id = 1), record TEXT NOT NULL) STRICT;
INSERT INTO "opening" VALUES(1,'{"drill":"fix-1"}');
CREATE TABLE review (
        id INTEGER PRIMARY KEY,
        items TEXT NOT NULL,
        drill_id TEXT NOT NULL,
        deck TEXT NOT NULL,
        deck_hash TEXT NOT NULL,
        kind TEXT NOT NULL,
        area TEXT NOT NULL,
        form TEXT NOT NULL,
        quantity TEXT NOT NULL,
        inputs TEXT NOT NULL,
        seed TEXT NOT NULL,
        question TEXT NOT NULL,
        typed TEXT NOT NULL,
        value TEXT NOT NULL,
        truth TEXT NOT NULL,
        unit TEXT NOT NULL,
        tolerance_on REAL,
        tolerance_inside REAL,
        deviation REAL,
        verdict TEXT NOT NULL,
        score REAL NOT NULL CHECK (score BETWEEN 0 AND 1),
        slip TEXT NOT NULL,
        parts TEXT NOT NULL,
        seconds REAL,
        limit_s REAL NOT NULL,
        hint_used INTEGER NOT NULL CHECK (hint_used IN (0, 1)),
        mode TEXT NOT NULL,
        predicted REAL NOT NULL CHECK (predicted BETWEEN 0 AND 1),
        guess REAL CHECK (guess BETWEEN 0 AND 1),
        at TEXT NOT NULL CHECK (length(at) = 24),
        offset_min INTEGER NOT NULL,
        engine_version TEXT NOT NULL,
        digest BLOB NOT NULL CHECK (length(digest) = 32)
    ) STRICT;
INSERT INTO "review" VALUES(1,'["fix-0"]','fix-0','invented','aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa','computed','marshal','compute','marshal_fix_distance','{"angels":6,"side":"bow"}','s0','Marshal gives you angels 12. How far from the ship is your fix?','27 nm','27.0','27','nm',0.1,0.5,0.0,'on the number',0.0,'','{}',5.25,20.0,0,'practice',0.8,NULL,'2026-12-04T20:00:00.123Z',60,'0.1.0',X'AB6E98C8BF40BDD54F6F13E0133BC181DD483A6EEDAB25C4267993DA9BDFF8D1');
INSERT INTO "review" VALUES(2,'["fix-1"]','fix-1','invented','aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa','computed','marshal','compute','marshal_fix_distance','{"angels":7,"side":"bow"}','s1','Marshal gives you angels 12. How far from the ship is your fix?','27 nm','27.0','27','nm',0.1,0.5,0.0,'on the number',0.5,'','{}',5.25,20.0,0,'practice',0.8,NULL,'2026-12-04T20:01:00.123Z',60,'0.1.0',X'CAA5E5DB9DF8D954FD69B66A2F0F59BEEE496562A9C124279D6E1438663F554B');
INSERT INTO "review" VALUES(3,'["fix-2"]','fix-2','invented','aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa','computed','marshal','compute','marshal_fix_distance','{"angels":8,"side":"bow"}','s2','Marshal gives you angels 12. How far from the ship is your fix?','27 nm','27.0','27','nm',0.1,0.5,0.0,'on the number',1.0,'','{}',5.25,20.0,0,'practice',0.8,NULL,'2026-12-04T20:02:00.123Z',60,'0.1.0',X'8D5EA4936C2A23A45C709224608859A408717C15170B9DB04A1D1C162D38941D');
INSERT INTO "review" VALUES(4,'["fix-3"]','fix-3','invented','aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa','computed','marshal','compute','marshal_fix_distance','{"angels":9,"side":"bow"}','s3','Marshal gives you angels 12. How far from the ship is your fix?','27 nm','27.0','27','nm',0.1,0.5,0.0,'on the number',0.0,'','{}',5.25,20.0,0,'practice',0.8,NULL,'2026-12-04T20:03:00.123Z',60,'0.1.0',X'580871ED0C3884269E2B103C0EC7BA51879E286858DE1219B3D921D6072D2B32');
INSERT INTO "review" VALUES(5,'["fix-4"]','fix-4','invented','aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa','computed','marshal','compute','marshal_fix_distance','{"angels":10,"side":"bow"}','s4','Marshal gives you angels 12. How far from the ship is your fix?','27 nm','27.0','27','nm',0.1,0.5,0.0,'on the number',0.5,'','{}',5.25,20.0,0,'practice',0.8,NULL,'2026-12-04T20:04:00.123Z',60,'0.1.0',X'0ED9DC9C2AD9ADC1C978077864ED4D36FAEF38D524667FA7BF9FFEDAB7307118');
INSERT INTO "review" VALUES(6,'["fix-0"]','fix-0','invented','aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa','computed','marshal','compute','marshal_fix_distance','{"angels":11,"side":"bow"}','s5','Marshal gives you angels 12. How far from the ship is your fix?','27 nm','27.0','27','nm',0.1,0.5,0.0,'on the number',1.0,'','{}',5.25,20.0,0,'practice',0.8,NULL,'2026-12-04T20:05:00.123Z',60,'0.1.0',X'8B96447CD8A7C4683FB0A17C4033C09C80181A4EA7E620E436BEA463E2153865');
INSERT INTO "review" VALUES(7,'["fix-1"]','fix-1','invented','aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa','computed','marshal','compute','marshal_fix_distance','{"angels":12,"side":"bow"}','s6','Marshal gives you angels 12. How far from the ship is your fix?','27 nm','27.0','27','nm',0.1,0.5,0.0,'on the number',0.0,'','{}',5.25,20.0,0,'practice',0.8,NULL,'2026-12-04T20:06:00.123Z',60,'0.1.0',X'8D0B71770398FDC859EA459B644C4F940C3D903EEC85EF1943C67535202C49E6');
INSERT INTO "review" VALUES(8,'["fix-2"]','fix-2','invented','aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa','computed','marshal','compute','marshal_fix_distance','{"angels":13,"side":"bow"}','s7','Marshal gives you angels 12. How far from the ship is your fix?','27 nm','27.0','27','nm',0.1,0.5,0.0,'on the number',0.5,'','{}',5.25,20.0,0,'practice',0.8,NULL,'2026-12-04T20:07:00.123Z',60,'0.1.0',X'500D1DF884986332AEEBE3C5C4BF25D3C6B65C3BC6E69BA9EC40A15831B46BE9');
CREATE TABLE setting (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;
INSERT INTO "setting" VALUES('minutes','5');
CREATE TABLE withdrawal (
        id INTEGER PRIMARY KEY,
        review_id INTEGER NOT NULL UNIQUE REFERENCES review (id),
        at TEXT NOT NULL CHECK (length(at) = 24),
        digest BLOB NOT NULL CHECK (length(digest) = 32)
    ) STRICT;
INSERT INTO "withdrawal" VALUES(1,3,'2026-12-04T20:00:00.123Z',X'2F501D2FAE56362F9256B7D05D54852D9CCF744FAAF794177B9AAD022C01B1DF');
CREATE UNIQUE INDEX "idx__sqlite_migrations_migration_set_name"
    ON "_sqlite_migrations" ("migration_set", "name");
CREATE INDEX review_by_drill ON review (drill_id, id);
CREATE TRIGGER review_stays_update BEFORE UPDATE ON review
        BEGIN SELECT RAISE(ABORT, 'review rows are never changed or removed'); END;
CREATE TRIGGER review_stays_delete BEFORE DELETE ON review
        BEGIN SELECT RAISE(ABORT, 'review rows are never changed or removed'); END;
CREATE TRIGGER withdrawal_stays_update BEFORE UPDATE ON withdrawal
        BEGIN SELECT RAISE(ABORT, 'withdrawal rows are never changed or removed'); END;
CREATE TRIGGER withdrawal_stays_delete BEFORE DELETE ON withdrawal
        BEGIN SELECT RAISE(ABORT, 'withdrawal rows are never changed or removed'); END;
CREATE TRIGGER flag_stays_update BEFORE UPDATE ON flag
        BEGIN SELECT RAISE(ABORT, 'flag rows are never changed or removed'); END;
CREATE TRIGGER flag_stays_delete BEFORE DELETE ON flag
        BEGIN SELECT RAISE(ABORT, 'flag rows are never changed or removed'); END;
CREATE TRIGGER review_in_order BEFORE INSERT ON review
        WHEN new.id IS NOT (SELECT coalesce(max(id), 0) + 1 FROM review)
        BEGIN SELECT RAISE(ABORT, 'review rows are numbered without gaps'); END;
CREATE TRIGGER withdrawal_in_order BEFORE INSERT ON withdrawal
        WHEN new.id IS NOT (SELECT coalesce(max(id), 0) + 1 FROM withdrawal)
        BEGIN SELECT RAISE(ABORT, 'withdrawal rows are numbered without gaps'); END;
CREATE TRIGGER flag_in_order BEFORE INSERT ON flag
        WHEN new.id IS NOT (SELECT coalesce(max(id), 0) + 1 FROM flag)
        BEGIN SELECT RAISE(ABORT, 'flag rows are numbered without gaps'); END;
COMMIT;
