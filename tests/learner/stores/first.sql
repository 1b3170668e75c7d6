-- As version 0.1.0, with schema 1, wrote it.
CREATE TABLE learner (id TEXT PRIMARY KEY, nickname TEXT NOT NULL, picture TEXT NOT NULL,
    settings TEXT NOT NULL, created TEXT NOT NULL);
CREATE TABLE sitting (id TEXT PRIMARY KEY, learner TEXT NOT NULL REFERENCES learner ON DELETE
    CASCADE, began TEXT NOT NULL, ended TEXT);
CREATE TABLE attempt (id TEXT PRIMARY KEY, sitting TEXT NOT NULL REFERENCES sitting ON DELETE
    CASCADE, at TEXT NOT NULL, lesson TEXT NOT NULL, exercise TEXT NOT NULL, kind TEXT NOT NULL,
    rung TEXT NOT NULL, rods INTEGER NOT NULL, facts TEXT NOT NULL, is_right INTEGER NOT NULL,
    unaided INTEGER NOT NULL, helps INTEGER NOT NULL, slips TEXT NOT NULL, seconds REAL NOT NULL);
CREATE TABLE lesson (learner TEXT NOT NULL REFERENCES learner ON DELETE CASCADE, lesson TEXT
    NOT NULL, seed INTEGER NOT NULL, step INTEGER NOT NULL, item INTEGER NOT NULL,
    round INTEGER NOT NULL, unaided INTEGER NOT NULL, done TEXT, PRIMARY KEY (learner, lesson));
CREATE INDEX attempt_by_sitting ON attempt (sitting);
CREATE INDEX sitting_by_learner ON sitting (learner);
PRAGMA user_version = 1;
INSERT INTO learner VALUES ('l1', 'Otter', 'otter', '{"left_handed": true}', '2026-05-01');
INSERT INTO sitting VALUES ('s1', 'l1', '2026-05-01T09:00:00+00:00', NULL);
INSERT INTO attempt VALUES ('a1', 's1', '2026-05-01T09:01:00+00:00', 'five-add-1', '4 + 3', 'sum',
    'alone', 1, '["add-five-3", "set-digit-4"]', 1, 1, 0, '[]', 4.5);
INSERT INTO attempt VALUES ('a2', 's1', '2026-05-01T09:02:00+00:00', 'five-add-5', '4 + 1', 'sum',
    'covered', 1, '["add-five-1", "set-digit-4"]', 0, 0, 1, '["wrong-answer"]', 9.0);
INSERT INTO lesson VALUES ('l1', 'five-add-1', 7, 3, 2, 0, 1, '2026-05-01T09:02:00+00:00');
