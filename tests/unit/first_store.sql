BEGIN TRANSACTION;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0001');
CREATE TABLE event (
	place INTEGER NOT NULL, 
	id TEXT NOT NULL, 
	subject TEXT NOT NULL, 
	kind TEXT NOT NULL, 
	at TEXT NOT NULL, 
	stored_at TEXT NOT NULL, 
	body TEXT NOT NULL, 
	previous_hash TEXT NOT NULL, 
	hash TEXT NOT NULL, 
	PRIMARY KEY (place), 
	UNIQUE (id)
)
 STRICT

;
INSERT INTO "event" VALUES(1,'0547c8fcd2702c7e74b7ea9a629e7f14','cup/c1','saved','2026-11-27T02:30:20Z','2026-11-27T02:30:20Z','{"content":{"diameter_mm":null,"glass":"unknown","mass_g":null,"name":"Blue cup","note":"","price_money":112500,"volume_ml":473.0,"wet":false},"version":1}','0000000000000000000000000000000000000000000000000000000000000000','478829f9dbc954dc003cd4ae7c00c83b63c59eabc8134cd388f4e8f9cdbf04ce');
INSERT INTO "event" VALUES(2,'aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa','lot/x','counted','2026-01-02T03:04:05Z','2026-11-27T02:30:20Z','{"n":1}','478829f9dbc954dc003cd4ae7c00c83b63c59eabc8134cd388f4e8f9cdbf04ce','8c2d67ef11a6e72da18787ff0bb38223695939e7bdf094e8785aecb77f987199');
CREATE TABLE job (
	"key" TEXT NOT NULL, 
	name TEXT NOT NULL, 
	status TEXT NOT NULL, 
	share REAL NOT NULL, 
	answer TEXT, 
	error TEXT, 
	started_at TEXT NOT NULL, 
	PRIMARY KEY ("key")
)
 STRICT

;
CREATE TABLE photo (
	id TEXT NOT NULL, 
	jpeg BLOB NOT NULL, 
	PRIMARY KEY (id)
)
 STRICT

;
INSERT INTO "photo" VALUES('p1',X'FFD820612070696374757265');
CREATE TABLE record (
	id TEXT NOT NULL, 
	sort TEXT NOT NULL, 
	name TEXT NOT NULL, 
	version INTEGER NOT NULL CHECK (version >= 1), 
	changed_at TEXT NOT NULL, 
	retired INTEGER NOT NULL CHECK (retired IN (0, 1)), 
	body TEXT NOT NULL, 
	PRIMARY KEY (id)
)
 STRICT

;
INSERT INTO "record" VALUES('c1','cup','Blue cup',1,'2026-11-27T02:30:20Z',0,'{"diameter_mm":null,"glass":"unknown","mass_g":null,"name":"Blue cup","note":"","price_money":112500,"volume_ml":473.0,"wet":false}');
CREATE TABLE sheet (
	number INTEGER NOT NULL, 
	code TEXT NOT NULL, 
	frozen_at TEXT NOT NULL, 
	version TEXT NOT NULL, 
	title TEXT NOT NULL, 
	draft TEXT NOT NULL, 
	request TEXT NOT NULL, 
	"plan" TEXT NOT NULL, 
	event_id TEXT NOT NULL, 
	PRIMARY KEY (number), 
	UNIQUE (code), 
	FOREIGN KEY(event_id) REFERENCES event (id)
)
 STRICT

;
CREATE INDEX ix_record_sort ON record (sort);
CREATE INDEX ix_event_subject ON event (subject);
CREATE TRIGGER event_no_update BEFORE UPDATE ON event BEGIN SELECT RAISE(ABORT, 'event is append-only'); END;
CREATE TRIGGER event_no_delete BEFORE DELETE ON event BEGIN SELECT RAISE(ABORT, 'event is append-only'); END;
CREATE TRIGGER sheet_no_update BEFORE UPDATE ON sheet BEGIN SELECT RAISE(ABORT, 'sheet is append-only'); END;
CREATE TRIGGER sheet_no_delete BEFORE DELETE ON sheet BEGIN SELECT RAISE(ABORT, 'sheet is append-only'); END;
CREATE TRIGGER photo_no_update BEFORE UPDATE ON photo BEGIN SELECT RAISE(ABORT, 'photo is append-only'); END;
CREATE TRIGGER photo_no_delete BEFORE DELETE ON photo BEGIN SELECT RAISE(ABORT, 'photo is append-only'); END;
COMMIT;
