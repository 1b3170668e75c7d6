-- As the version with schema 5 wrote it.
BEGIN TRANSACTION;
CREATE TABLE attempt (id TEXT PRIMARY KEY, sitting TEXT NOT NULL REFERENCES sitting ON DELETE
    CASCADE, at TEXT NOT NULL, lesson TEXT NOT NULL, exercise TEXT NOT NULL, kind TEXT NOT NULL,
    rung TEXT NOT NULL, rods INTEGER NOT NULL, facts TEXT NOT NULL, is_right INTEGER NOT NULL,
    unaided INTEGER NOT NULL, helps INTEGER NOT NULL, slips TEXT NOT NULL, seconds REAL NOT NULL, looks INTEGER NOT NULL DEFAULT 0, outcome TEXT, asked TEXT NOT NULL DEFAULT 'shown', pace REAL NOT NULL DEFAULT 0, own INTEGER NOT NULL DEFAULT 0, digits INTEGER NOT NULL DEFAULT 0, terms INTEGER NOT NULL DEFAULT 0, number INTEGER NOT NULL DEFAULT 0, origin TEXT NOT NULL DEFAULT '', is_ended INTEGER NOT NULL DEFAULT 1, answers TEXT NOT NULL DEFAULT '[]', log BLOB, places INTEGER DEFAULT -1);
INSERT INTO "attempt" VALUES('a1','s1','2026-11-04T15:01:00+00:00','practise-shown','38 + 47','sum','number only',17,'["add-direct-1", "add-five-4", "add-ten-7", "set-digit-3", "set-digit-8", "set-tens"]',0,0,0,'["wrong-answer"]',4.5,0,'wrong answer','shown',0.0,0,2,2,1,'set',1,'["75"]',X'010003E9FF0080401F41FE07E000',NULL);
INSERT INTO "attempt" VALUES('a2','s1','2026-11-04T15:02:00+00:00','practise-shown','10 / 3','sum','number only',17,'["divide-1", "place-quotient", "round", "set-digit-0", "set-digit-1", "set-digit-3", "set-tens", "sub-direct-1", "sub-direct-3", "sub-ten-9", "unit-rod"]',1,1,0,'[]',4.5,0,'right','shown',0.0,0,2,0,2,'set',1,'["3.33"]',X'010003E9FF0080401F41FE07E000',2);
INSERT INTO "attempt" VALUES('a3','s1','2026-11-04T15:03:00+00:00','practise-shown','4.2 / 4','sum','number only',17,'["divide-1", "place-quotient-far", "set-digit-2", "set-digit-4", "set-tens", "sub-direct-2", "sub-direct-4", "unit-rod"]',1,1,0,'[]',4.5,0,'right','shown',0.0,0,2,0,3,'set',1,'["1.05"]',X'010003E9FF0080401F41FE07E000',-1);
INSERT INTO "attempt" VALUES('a4','s1','2026-11-04T15:04:00+00:00','practise-shown','17 / 5','sum','number only',17,'["divide-1", "place-quotient", "remainder", "set-digit-1", "set-digit-5", "set-digit-7", "set-tens", "sub-direct-1", "sub-direct-5"]',1,1,0,'[]',4.5,0,'right','shown',0.0,0,2,0,4,'set',1,'["3", "2"]',X'010003E9FF0080401F41FE07E000',-1);
INSERT INTO "attempt" VALUES('a5','s1','2026-11-04T15:05:00+00:00','practise-called','12 + 34 + 56','sum','number only',17,'["add-direct-1", "add-direct-3", "add-direct-5", "add-five-4", "add-ten-five-6", "ripple-add", "set-digit-1", "set-digit-2", "set-tens"]',1,1,0,'[]',4.5,0,'right','called',0.0,1,2,3,5,'set',1,'["102"]',X'010003E9FF0080401F41FE07E000',NULL);
INSERT INTO "attempt" VALUES('a6','s1','2026-11-04T15:06:00+00:00','practise-shown','8 + 7','sum','alone',17,'["add-direct-1", "add-ten-7", "set-digit-8"]',0,0,0,'[]',4.5,0,NULL,'shown',0.0,0,1,2,6,'set',0,'[]',X'010003E9FF0080401F41FE07E000',NULL);
INSERT INTO "attempt" VALUES('a7','s2','2026-11-05T09:01:00+00:00','five-add-1','4 + 3','sum','alone',17,'["add-five-3", "set-digit-4"]',1,1,0,'[]',4.5,0,'right','shown',0.0,0,1,2,1,'lesson',1,'[]',X'010003E9FF0080401F41FE07E000',NULL);
INSERT INTO "attempt" VALUES('a8','s2','2026-11-05T09:02:00+00:00','five-add-1','3 + 4','sum','alone',17,'["add-five-4", "set-digit-3"]',0,0,0,'["wrong-count"]',4.5,0,'right','shown',0.0,0,1,2,2,'lesson',1,'[]',X'010003E9FF0080401F41FE07E000',NULL);
INSERT INTO "attempt" VALUES('a9','s3','2026-11-06T10:02:00+00:00','practise-shown','sqrt 1764','sum','covered',17,'["halve", "root", "root-digit", "set-digit-1", "set-digit-4", "set-digit-6", "set-digit-7", "set-hundreds", "set-tens", "set-thousands", "sub-direct-1", "sub-direct-2", "sub-direct-6", "sub-direct-8"]',1,1,0,'[]',4.5,0,'right','shown',0.0,0,4,0,1,'today',1,'["42"]',X'010003E9FF0080401F41FE07E000',NULL);
CREATE TABLE computer (name TEXT PRIMARY KEY, value TEXT NOT NULL);
INSERT INTO "computer" VALUES('settings','{"age": "7-9", "look": "light", "volume": "quiet", "carry": "last", "remove": "run", "layout": "both", "outer": "multiplicand", "first": "highest", "strictness": "beads", "marks_every": 3, "free_rods": 13, "left_handed": false, "reduced_motion": false, "bead_tint": true, "place_names": true, "all_open": false, "voice": true, "ladder_up_after": 10, "ladder_share": 0.85, "ladder_down": "2 of 3", "today_minutes": 0, "eyes_shut": false, "quick_flash": false, "letter_keys": true, "classroom": true, "screen_diagonal": 2.5, "screen_shape": "16:9", "nearest_seat": 2.5, "farthest_seat": 7.0}');
CREATE TABLE flash_run (id TEXT PRIMARY KEY, sitting TEXT NOT NULL REFERENCES sitting ON DELETE
    CASCADE, at TEXT NOT NULL, digits INTEGER NOT NULL, count INTEGER NOT NULL,
    interval REAL NOT NULL, minus INTEGER NOT NULL, path TEXT NOT NULL, refresh REAL,
    sd_ms REAL NOT NULL, worst_ms REAL NOT NULL, drift_ms REAL NOT NULL, missed INTEGER NOT NULL,
    stopped INTEGER NOT NULL, counts INTEGER NOT NULL, items TEXT NOT NULL);
INSERT INTO "flash_run" VALUES('f1','s3','2026-11-06T10:03:00+00:00',1,3,1.0,0,'plain',60.0,0.1,0.2,0.0,0,0,1,'[[0.0, 0.1], [1000.0, 1000.2], [2000.0, 2000.1]]');
CREATE TABLE folded (learner TEXT NOT NULL REFERENCES learner ON DELETE CASCADE, what TEXT NOT NULL,
    value TEXT NOT NULL, PRIMARY KEY (learner, what));
CREATE TABLE gone (learner TEXT PRIMARY KEY, at TEXT NOT NULL, back TEXT NOT NULL DEFAULT '');
INSERT INTO "gone" VALUES('l3','2026-11-07T09:00:00+00:00','');
CREATE TABLE joined (one TEXT NOT NULL, other TEXT NOT NULL, at TEXT NOT NULL,
    apart INTEGER NOT NULL DEFAULT 0, PRIMARY KEY (one, other));
INSERT INTO "joined" VALUES('l1','l4','2026-11-06T13:00:00+00:00',0);
CREATE TABLE kept_set (id TEXT PRIMARY KEY, learner TEXT NOT NULL REFERENCES learner ON DELETE
    CASCADE, kept TEXT NOT NULL, removed INTEGER NOT NULL DEFAULT 0, changed TEXT NOT NULL,
    name TEXT NOT NULL, asked TEXT NOT NULL);
INSERT INTO "kept_set" VALUES('k1','l1','2026-11-06T11:00:00+00:00',0,'2026-11-06T11:00:00+00:00','Nets','{"family": "ten-add"}');
INSERT INTO "kept_set" VALUES('k2','l1','2026-11-06T11:00:00+00:00',1,'2026-11-06T12:00:00+00:00','','');
CREATE TABLE learner (id TEXT PRIMARY KEY, nickname TEXT NOT NULL, picture TEXT NOT NULL,
    settings TEXT NOT NULL, created TEXT NOT NULL, named TEXT NOT NULL DEFAULT '', pictured TEXT NOT NULL DEFAULT '', settled TEXT NOT NULL DEFAULT '');
INSERT INTO "learner" VALUES('l1','Fish-Otter','otter','{"age": "10+", "look": "light", "volume": "quiet", "carry": "last", "remove": "run", "layout": "both", "outer": "multiplicand", "first": "highest", "strictness": "beads", "marks_every": 3, "free_rods": 13, "left_handed": false, "reduced_motion": false, "bead_tint": true, "place_names": true, "all_open": false, "voice": true, "ladder_up_after": 10, "ladder_share": 0.85, "ladder_down": "2 of 3", "today_minutes": 0, "eyes_shut": false, "letter_keys": true}','2026-11-02T09:00:00+00:00','2026-11-03T09:00:00+00:00','2026-11-03T09:00:00+00:00','2026-11-02T09:00:00+00:00');
INSERT INTO "learner" VALUES('l2','Seal','seal','{"age": "4-6", "look": "light", "volume": "quiet", "carry": "last", "remove": "run", "layout": "both", "outer": "multiplicand", "first": "highest", "strictness": "beads", "marks_every": 3, "free_rods": 13, "left_handed": true, "reduced_motion": false, "bead_tint": true, "place_names": true, "all_open": false, "voice": true, "ladder_up_after": 10, "ladder_share": 0.85, "ladder_down": "2 of 3", "today_minutes": 0, "eyes_shut": false, "letter_keys": true}','2026-11-02T09:01:00+00:00','2026-11-02T09:01:00+00:00','2026-11-02T09:01:00+00:00','2026-11-02T09:01:00+00:00');
INSERT INTO "learner" VALUES('l4','Otter','gull','{"age": "10+", "look": "light", "volume": "quiet", "carry": "last", "remove": "run", "layout": "both", "outer": "multiplicand", "first": "highest", "strictness": "beads", "marks_every": 3, "free_rods": 13, "left_handed": false, "reduced_motion": false, "bead_tint": true, "place_names": true, "all_open": false, "voice": true, "ladder_up_after": 10, "ladder_share": 0.85, "ladder_down": "2 of 3", "today_minutes": 0, "eyes_shut": false, "letter_keys": true}','2026-11-02T09:03:00+00:00','2026-11-02T09:03:00+00:00','2026-11-02T09:03:00+00:00','2026-11-02T09:03:00+00:00');
CREATE TABLE lesson (learner TEXT NOT NULL REFERENCES learner ON DELETE CASCADE, lesson TEXT
    NOT NULL, seed INTEGER NOT NULL, step INTEGER NOT NULL, item INTEGER NOT NULL,
    round INTEGER NOT NULL, unaided INTEGER NOT NULL, done TEXT, mastered TEXT, changed TEXT NOT NULL DEFAULT '', placed INTEGER NOT NULL DEFAULT 0, placed_at TEXT NOT NULL DEFAULT '', PRIMARY KEY (learner, lesson));
INSERT INTO "lesson" VALUES('l2','five-add-1',7,4,0,0,0,'2026-11-05T09:01:00+00:00','2026-11-05T09:02:00+00:00','2026-11-05T09:02:00+00:00',0,'');
INSERT INTO "lesson" VALUES('l4','beads-1',0,0,0,0,0,NULL,NULL,'',1,'2026-11-06T10:00:00+00:00');
INSERT INTO "lesson" VALUES('l4','beads-2',0,0,0,0,0,NULL,NULL,'',1,'2026-11-06T10:00:00+00:00');
CREATE TABLE sitting (id TEXT PRIMARY KEY, learner TEXT NOT NULL REFERENCES learner ON DELETE
    CASCADE, began TEXT NOT NULL, ended TEXT, conventions TEXT, window TEXT, input TEXT, judge INTEGER);
INSERT INTO "sitting" VALUES('s1','l1','2026-11-04T15:00:00+00:00','2026-11-04T15:07:00+00:00','{"carry": "last", "remove": "run", "layout": "both", "outer": "multiplicand", "first": "highest"}','1280x720','keys mouse',1);
INSERT INTO "sitting" VALUES('s2','l2','2026-11-05T09:00:00+00:00',NULL,'{"carry": "last", "remove": "run", "layout": "both", "outer": "multiplicand", "first": "highest"}','1280x720','touch',1);
INSERT INTO "sitting" VALUES('s3','l4','2026-11-06T10:01:00+00:00',NULL,'{"carry": "last", "remove": "run", "layout": "both", "outer": "multiplicand", "first": "highest"}','1280x720','',1);
CREATE TABLE tapping (id TEXT PRIMARY KEY, sitting TEXT NOT NULL REFERENCES sitting ON DELETE
    CASCADE, at TEXT NOT NULL, pace REAL);
INSERT INTO "tapping" VALUES('p1','s3','2026-11-06T10:04:00+00:00',0.4);
INSERT INTO "tapping" VALUES('p2','s3','2026-11-06T10:05:00+00:00',NULL);
CREATE INDEX attempt_by_sitting ON attempt (sitting);
CREATE INDEX sitting_by_learner ON sitting (learner);
CREATE INDEX flash_run_by_sitting ON flash_run (sitting);
CREATE INDEX tapping_by_sitting ON tapping (sitting);
COMMIT;
PRAGMA user_version = 5;
