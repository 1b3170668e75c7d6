-- As the version with schema 3 wrote it.
BEGIN TRANSACTION;
CREATE TABLE attempt (id TEXT PRIMARY KEY, sitting TEXT NOT NULL REFERENCES sitting ON DELETE
    CASCADE, at TEXT NOT NULL, lesson TEXT NOT NULL, exercise TEXT NOT NULL, kind TEXT NOT NULL,
    rung TEXT NOT NULL, rods INTEGER NOT NULL, facts TEXT NOT NULL, is_right INTEGER NOT NULL,
    unaided INTEGER NOT NULL, helps INTEGER NOT NULL, slips TEXT NOT NULL, seconds REAL NOT NULL, looks INTEGER NOT NULL DEFAULT 0, outcome TEXT, asked TEXT NOT NULL DEFAULT 'shown', pace REAL NOT NULL DEFAULT 0, own INTEGER NOT NULL DEFAULT 0, digits INTEGER NOT NULL DEFAULT 0, terms INTEGER NOT NULL DEFAULT 0);
INSERT INTO "attempt" VALUES('a3','s1','2026-09-07T15:02:00+00:00','five-add-1','4 + 3','sum','alone',1,'["add-five-3", "set-digit-4"]',1,1,0,'[]',4.5,0,'right','shown',0.0,0,1,2);
INSERT INTO "attempt" VALUES('a1','s1','2026-09-07T15:02:00+00:00','five-add-1','3 + 4','sum','alone',1,'["add-five-4", "set-digit-3"]',1,0,1,'["wrong-count"]',9.25,0,'right','shown',0.0,0,1,2);
INSERT INTO "attempt" VALUES('a2','s1','2026-09-07T15:03:00+00:00','practise-called','12 + 34 + 56','sum','number only',4,'["add-direct-1", "add-direct-3", "add-direct-5", "add-five-4", "add-ten-five-6", "ripple-add", "set-digit-1", "set-digit-2", "set-tens"]',0,0,0,'["wrong-answer"]',3.0,0,'wrong answer','called',1.5,1,2,3);
INSERT INTO "attempt" VALUES('a0','s0','2026-09-08T15:01:00+00:00','ten-add-1','8 + 7','sum','covered',2,'["add-direct-1", "add-ten-7", "set-digit-8"]',0,0,0,'["carry-forgotten"]',6.0,2,'picture lost','shown',0.0,0,1,2);
CREATE TABLE computer (name TEXT PRIMARY KEY, value TEXT NOT NULL);
INSERT INTO "computer" VALUES('settings','{"age": "7-9", "look": "light", "volume": "quiet", "carry": "last", "remove": "run", "layout": "both", "outer": "multiplicand", "first": "highest", "strictness": "beads", "marks_every": 3, "free_rods": 13, "left_handed": false, "reduced_motion": false, "bead_tint": true, "place_names": true, "all_open": false, "voice": true, "ladder_up_after": 10, "ladder_share": 0.85, "ladder_down": "2 of 3", "eyes_shut": false, "quick_flash": true, "letter_keys": true, "classroom": false, "screen_diagonal": 1.9, "screen_shape": "16:9", "nearest_seat": 2.5, "farthest_seat": 7.0}');
INSERT INTO "computer" VALUES('code','361b5b279275b2f611650f027b98db5e bbb005691abc400b13f3802eecd593705d3295574594d3fff0b5b4e1e49841ce');
INSERT INTO "computer" VALUES('plan','{"items": []}');
CREATE TABLE flash_run (id TEXT PRIMARY KEY, sitting TEXT NOT NULL REFERENCES sitting ON DELETE
    CASCADE, at TEXT NOT NULL, digits INTEGER NOT NULL, count INTEGER NOT NULL,
    interval REAL NOT NULL, minus INTEGER NOT NULL, path TEXT NOT NULL, refresh REAL,
    sd_ms REAL NOT NULL, worst_ms REAL NOT NULL, drift_ms REAL NOT NULL, missed INTEGER NOT NULL,
    stopped INTEGER NOT NULL, counts INTEGER NOT NULL, items TEXT NOT NULL);
INSERT INTO "flash_run" VALUES('f1','s2','2026-09-07T15:10:00+00:00',1,3,1.0,0,'plain',60.0,0.1,0.2,0.0,0,0,1,'[[0.0, 0.1], [1000.0, 1000.1], [2000.0, 2000.2]]');
CREATE TABLE learner (id TEXT PRIMARY KEY, nickname TEXT NOT NULL, picture TEXT NOT NULL,
    settings TEXT NOT NULL, created TEXT NOT NULL);
INSERT INTO "learner" VALUES('l1','Otter','otter','{"age": "7-9", "look": "light", "volume": "quiet", "carry": "first", "remove": "run", "layout": "both", "outer": "multiplicand", "first": "highest", "strictness": "beads", "marks_every": 3, "free_rods": 13, "left_handed": false, "reduced_motion": false, "bead_tint": true, "place_names": true, "all_open": false, "voice": true, "ladder_up_after": 10, "ladder_share": 0.85, "ladder_down": "2 of 3", "eyes_shut": false, "letter_keys": true, "practise": {"asked": "called", "called": {"digits": 3}}}','2026-09-07T15:00:00+00:00');
INSERT INTO "learner" VALUES('l2','Seal 2','seal','{"age": "4-6", "look": "light", "volume": "quiet", "carry": "last", "remove": "run", "layout": "both", "outer": "multiplicand", "first": "highest", "strictness": "beads", "marks_every": 3, "free_rods": 13, "left_handed": false, "reduced_motion": false, "bead_tint": true, "place_names": true, "all_open": false, "voice": true, "ladder_up_after": 10, "ladder_share": 0.85, "ladder_down": "2 of 3", "eyes_shut": false, "letter_keys": true}','2026-09-07T15:01:00+00:00');
CREATE TABLE lesson (learner TEXT NOT NULL REFERENCES learner ON DELETE CASCADE, lesson TEXT
    NOT NULL, seed INTEGER NOT NULL, step INTEGER NOT NULL, item INTEGER NOT NULL,
    round INTEGER NOT NULL, unaided INTEGER NOT NULL, done TEXT, mastered TEXT, PRIMARY KEY (learner, lesson));
INSERT INTO "lesson" VALUES('l1','five-add-1',7,3,2,0,1,'2026-09-07T15:02:00+00:00',NULL);
INSERT INTO "lesson" VALUES('l1','ten-add-1',11,1,0,0,0,NULL,NULL);
INSERT INTO "lesson" VALUES('l2','beads-1',5,9,0,0,0,'2026-09-07T15:09:00+00:00','2026-09-07T15:09:00+00:00');
CREATE TABLE sitting (id TEXT PRIMARY KEY, learner TEXT NOT NULL REFERENCES learner ON DELETE
    CASCADE, began TEXT NOT NULL, ended TEXT);
INSERT INTO "sitting" VALUES('s1','l1','2026-09-07T15:00:00+00:00','2026-09-07T15:04:00+00:00');
INSERT INTO "sitting" VALUES('s0','l1','2026-09-08T15:00:00+00:00',NULL);
INSERT INTO "sitting" VALUES('s2','l2','2026-09-07T15:00:00+00:00',NULL);
CREATE INDEX attempt_by_sitting ON attempt (sitting);
CREATE INDEX sitting_by_learner ON sitting (learner);
CREATE INDEX flash_run_by_sitting ON flash_run (sitting);
COMMIT;
PRAGMA user_version = 3;
