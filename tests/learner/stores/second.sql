-- As the version with schema 2 wrote it; the exercise of the last attempt is none that it knew.
BEGIN TRANSACTION;
CREATE TABLE attempt (id TEXT PRIMARY KEY, sitting TEXT NOT NULL REFERENCES sitting ON DELETE
    CASCADE, at TEXT NOT NULL, lesson TEXT NOT NULL, exercise TEXT NOT NULL, kind TEXT NOT NULL,
    rung TEXT NOT NULL, rods INTEGER NOT NULL, facts TEXT NOT NULL, is_right INTEGER NOT NULL,
    unaided INTEGER NOT NULL, helps INTEGER NOT NULL, slips TEXT NOT NULL, seconds REAL NOT NULL, looks INTEGER NOT NULL DEFAULT 0, outcome TEXT, asked TEXT NOT NULL DEFAULT 'shown', pace REAL NOT NULL DEFAULT 0, own INTEGER NOT NULL DEFAULT 0);
INSERT INTO "attempt" VALUES('id-05','id-04','2026-05-04T09:30:00+00:00','beads-2','7','read','alone',1,'["read-digit-7"]',1,1,0,'[]',2.5,0,'right','shown',0.0,0);
INSERT INTO "attempt" VALUES('id-06','id-04','2026-05-04T09:30:00+00:00','five-add-1','4 + 3','sum','alone',1,'["add-five-3", "set-digit-4"]',1,1,0,'[]',4.5,0,'right','shown',0.0,0);
INSERT INTO "attempt" VALUES('id-07','id-04','2026-05-04T09:30:00+00:00','columns-3','38 + 47 - 5','sum','alone',3,'["add-direct-1", "add-five-4", "add-ten-7", "set-digit-3", "set-digit-8", "set-tens", "sub-direct-5"]',1,0,1,'["wrong-rod"]',21.0,0,'right','shown',0.0,0);
INSERT INTO "attempt" VALUES('id-08','id-04','2026-05-04T09:30:00+00:00','times-2','37 x 432','sum','alone',12,'["add-direct-1", "add-direct-2", "add-direct-4", "add-direct-6", "add-direct-8", "add-direct-9", "add-five-2", "add-ten-2", "multiply-3", "place-product", "set-digit-2", "set-digit-3", "set-digit-4", "set-digit-7", "set-hundreds", "set-tens"]',1,1,0,'[]',60.0,0,'right','shown',0.0,0);
INSERT INTO "attempt" VALUES('id-09','id-04','2026-05-04T09:30:00+00:00','roots-4','sqrt 1764','sum','alone',12,'["halve", "root", "root-digit", "set-digit-1", "set-digit-4", "set-digit-6", "set-digit-7", "set-hundreds", "set-tens", "set-thousands", "sub-direct-1", "sub-direct-2", "sub-direct-6", "sub-direct-8"]',1,1,0,'[]',75.0,0,'right','shown',0.0,0);
INSERT INTO "attempt" VALUES('id-10','id-04','2026-05-04T09:30:00+00:00','point-3','0.25 + 13.5','sum','alone',5,'["add-direct-1", "add-direct-3", "add-direct-5", "decimals", "set-digit-0", "set-digit-2", "set-digit-5"]',1,1,0,'[]',12.0,0,'right','shown',0.0,0);
INSERT INTO "attempt" VALUES('id-11','id-04','2026-05-04T09:30:00+00:00','practise-called','12 + 34 + 56','sum','number only',3,'["add-direct-1", "add-direct-3", "add-direct-5", "add-five-4", "add-ten-five-6", "ripple-add", "set-digit-1", "set-digit-2", "set-tens"]',1,1,0,'[]',9.0,2,'right','called',1.5,1);
INSERT INTO "attempt" VALUES('id-13','id-12','2026-05-04T09:30:00+00:00','mind-one-5','9 + 9','sum','number only',2,'["add-direct-1", "add-ten-9", "set-digit-9"]',0,0,0,'["wrong-answer"]',3.0,0,'wrong answer','flashed',0.5,0);
INSERT INTO "attempt" VALUES('id-99','id-04','2026-05-04T09:30:00+00:00','five-add-1','two boats and a crab','sum','alone',1,'["add-five-3", "set-digit-4"]',1,1,0,'[]',4.5,0,'right','shown',0.0,0);
CREATE TABLE flash_run (id TEXT PRIMARY KEY, sitting TEXT NOT NULL REFERENCES sitting ON DELETE
    CASCADE, at TEXT NOT NULL, digits INTEGER NOT NULL, count INTEGER NOT NULL,
    interval REAL NOT NULL, minus INTEGER NOT NULL, path TEXT NOT NULL, refresh REAL,
    sd_ms REAL NOT NULL, worst_ms REAL NOT NULL, drift_ms REAL NOT NULL, missed INTEGER NOT NULL,
    stopped INTEGER NOT NULL, counts INTEGER NOT NULL, items TEXT NOT NULL);
INSERT INTO "flash_run" VALUES('id-14','id-12','2026-05-04T09:30:00+00:00',1,2,0.5,0,'plain',59.94,0.05,0.4,-0.1,1,0,0,'[[0.0, 0.1], [500.0, null]]');
CREATE TABLE learner (id TEXT PRIMARY KEY, nickname TEXT NOT NULL, picture TEXT NOT NULL,
    settings TEXT NOT NULL, created TEXT NOT NULL);
INSERT INTO "learner" VALUES('id-01','Otter','otter','{"age": "7-9", "look": "dark", "volume": "quiet", "carry": "first", "remove": "run", "layout": "both", "outer": "multiplicand", "first": "highest", "strictness": "beads", "marks_every": 3, "free_rods": 13, "left_handed": true, "reduced_motion": false, "bead_tint": true, "place_names": true, "all_open": false, "voice": true, "ladder_up_after": 10, "ladder_share": 0.85, "ladder_down": "2 of 3", "eyes_shut": false, "quick_flash": false, "letter_keys": true, "classroom": false, "screen_diagonal": 2.5, "screen_shape": "16:9", "nearest_seat": 2.5, "farthest_seat": 7.0}','2026-05-04T09:30:00+00:00');
INSERT INTO "learner" VALUES('id-02','Seal','seal','{"age": "4-6", "look": "light", "volume": "quiet", "carry": "last", "remove": "run", "layout": "both", "outer": "multiplicand", "first": "highest", "strictness": "beads", "marks_every": 3, "free_rods": 13, "left_handed": false, "reduced_motion": false, "bead_tint": true, "place_names": true, "all_open": false, "voice": true, "ladder_up_after": 10, "ladder_share": 0.85, "ladder_down": "2 of 3", "eyes_shut": false, "quick_flash": false, "letter_keys": true, "classroom": true, "screen_diagonal": 1.4, "screen_shape": "4:3", "nearest_seat": 3.0, "farthest_seat": 9.0}','2026-05-04T09:30:00+00:00');
INSERT INTO "learner" VALUES('id-03','Crab','crab','{"age": "7-9", "look": "light", "volume": "quiet", "carry": "last", "remove": "run", "layout": "both", "outer": "multiplicand", "first": "highest", "strictness": "beads", "marks_every": 3, "free_rods": 13, "left_handed": false, "reduced_motion": false, "bead_tint": true, "place_names": true, "all_open": false, "voice": true, "ladder_up_after": 10, "ladder_share": 0.85, "ladder_down": "2 of 3", "eyes_shut": false, "quick_flash": true, "letter_keys": true, "classroom": true, "screen_diagonal": 3.0, "screen_shape": "16:9", "nearest_seat": 2.0, "farthest_seat": 15.0}','2026-05-04T09:30:00+00:00');
CREATE TABLE lesson (learner TEXT NOT NULL REFERENCES learner ON DELETE CASCADE, lesson TEXT
    NOT NULL, seed INTEGER NOT NULL, step INTEGER NOT NULL, item INTEGER NOT NULL,
    round INTEGER NOT NULL, unaided INTEGER NOT NULL, done TEXT, PRIMARY KEY (learner, lesson));
INSERT INTO "lesson" VALUES('id-01','five-add-1',7,3,2,0,1,'2026-05-04T09:30:00+00:00');
INSERT INTO "lesson" VALUES('id-02','mind-one-5',9,1,0,0,0,NULL);
CREATE TABLE sitting (id TEXT PRIMARY KEY, learner TEXT NOT NULL REFERENCES learner ON DELETE
    CASCADE, began TEXT NOT NULL, ended TEXT);
INSERT INTO "sitting" VALUES('id-04','id-01','2026-05-04T09:30:00+00:00','2026-05-04T09:30:00+00:00');
INSERT INTO "sitting" VALUES('id-12','id-02','2026-05-04T09:30:00+00:00',NULL);
CREATE INDEX attempt_by_sitting ON attempt (sitting);
CREATE INDEX sitting_by_learner ON sitting (learner);
CREATE INDEX flash_run_by_sitting ON flash_run (sitting);
COMMIT;
PRAGMA user_version = 2;
