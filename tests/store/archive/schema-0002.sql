-- A database of schema 2 with the invented visit of tests/store/samples.py, as Python's sqlite3 writes it out.
PRAGMA application_id=1398031432;
BEGIN TRANSACTION;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0002');
CREATE TABLE blob (
	sha256 TEXT NOT NULL, 
	media_type TEXT NOT NULL, 
	size INTEGER NOT NULL, 
	bytes BLOB NOT NULL, 
	PRIMARY KEY (sha256)
);
INSERT INTO "blob" VALUES('fe1a4ab1fb6347036bead73597d5d2958b26ac0b96f68ca2f6dcee53a50f297e','image/jpeg',20,X'6E6F74207265616C6C7920612070696374757265');
CREATE TABLE collision (
	fact TEXT NOT NULL, 
	sha256 TEXT NOT NULL, 
	content TEXT NOT NULL, 
	PRIMARY KEY (fact, sha256), 
	FOREIGN KEY(fact) REFERENCES fact (id)
);
CREATE TABLE entity (
	about TEXT NOT NULL, 
	kind TEXT NOT NULL, 
	name TEXT NOT NULL, 
	heads INTEGER NOT NULL, 
	search TEXT NOT NULL, 
	PRIMARY KEY (about, kind)
);
INSERT INTO "entity" VALUES('00000000000000000000000001','site','Fernhill Row',1,'fernhill row 310 m');
INSERT INTO "entity" VALUES('00000000000000000000000002','system','House pump',1,'house pump 0..100 psi 0.5..4.5 v ratiometric 00000000000000000000000001');
INSERT INTO "entity" VALUES('00000000000000000000000003','visit','',1,'relief valve lifting 00000000000000000000000001 open 00000000000000000000000002');
CREATE TABLE fact (
	id TEXT NOT NULL, 
	kind TEXT NOT NULL, 
	about TEXT NOT NULL, 
	visit TEXT, 
	at TEXT NOT NULL, 
	zone TEXT NOT NULL, 
	author TEXT NOT NULL, 
	instrument TEXT, 
	program TEXT NOT NULL, 
	body TEXT NOT NULL, 
	extra TEXT NOT NULL, 
	PRIMARY KEY (id)
);
INSERT INTO "fact" VALUES('00000000000000000000000001','site','00000000000000000000000001',NULL,'2026-05-04T07:09:31.250Z','UTC','Ann Marlowe',NULL,'0.1.0','{"altitude":"310 m","name":"Fernhill Row"}','{}');
INSERT INTO "fact" VALUES('00000000000000000000000002','system','00000000000000000000000002',NULL,'2026-05-04T07:09:31.250Z','UTC','Ann Marlowe',NULL,'0.1.0','{"name":"House pump","sensor":{"range":"0..100 psi","signal":"0.5..4.5 V ratiometric"},"site":"00000000000000000000000001"}','{}');
INSERT INTO "fact" VALUES('00000000000000000000000003','visit','00000000000000000000000003','00000000000000000000000003','2026-05-04T07:09:31.250Z','America/Toronto','Ann Marlowe',NULL,'0.1.0','{"complaint":{"text":"Relief valve lifting"},"site":"00000000000000000000000001","state":"open","system":"00000000000000000000000002"}','{}');
INSERT INTO "fact" VALUES('0000000000000000000000000A','reading','0000000000000000000000000A','00000000000000000000000003','2026-05-04T07:09:31.250Z','UTC','Ann Marlowe',NULL,'','{"measure":"gauge-pressure","value":"10 psi"}','{}');
INSERT INTO "fact" VALUES('0000000000000000000000000B','reading','0000000000000000000000000B','00000000000000000000000003','2026-05-04T07:09:31.250Z','UTC','Ann Marlowe',NULL,'','{"measure":"gauge-pressure","value":"11 psi"}','{}');
INSERT INTO "fact" VALUES('0000000000000000000000000C','reading','0000000000000000000000000C','00000000000000000000000003','2026-05-04T07:09:31.250Z','UTC','Ann Marlowe',NULL,'','{"measure":"gauge-pressure","value":"12 psi"}','{}');
INSERT INTO "fact" VALUES('0000000000000000000000000D','reading','0000000000000000000000000D','00000000000000000000000003','2026-05-04T07:09:31.250Z','UTC','Ann Marlowe',NULL,'','{"measure":"gauge-pressure","value":"13 psi"}','{}');
INSERT INTO "fact" VALUES('0000000000000000000000000E','reading','0000000000000000000000000E','00000000000000000000000003','2026-05-04T07:09:31.250Z','UTC','Ann Marlowe',NULL,'','{"measure":"gauge-pressure","value":"14 psi"}','{}');
INSERT INTO "fact" VALUES('0000000000000000000000000M','photo','0000000000000000000000000M','00000000000000000000000003','2026-05-04T07:09:31.250Z','UTC','',NULL,'','{"media_type":"image/jpeg","sha256":"fe1a4ab1fb6347036bead73597d5d2958b26ac0b96f68ca2f6dcee53a50f297e"}','{}');
CREATE TABLE pending (
	visit TEXT NOT NULL, 
	about TEXT NOT NULL, 
	system TEXT, 
	kind TEXT NOT NULL, 
	due TEXT NOT NULL, 
	what TEXT NOT NULL, 
	heads INTEGER NOT NULL, 
	PRIMARY KEY (visit, about)
);
CREATE TABLE purged (
	target TEXT NOT NULL, 
	purge TEXT NOT NULL, 
	PRIMARY KEY (target, purge)
);
CREATE TABLE setting (
	name TEXT NOT NULL, 
	value TEXT NOT NULL, 
	PRIMARY KEY (name)
);
INSERT INTO "setting" VALUES('author','Ann Marlowe');
CREATE TABLE shown (
	fact TEXT NOT NULL, 
	sha256 TEXT NOT NULL, 
	PRIMARY KEY (fact)
);
INSERT INTO "shown" VALUES('0000000000000000000000000M','fe1a4ab1fb6347036bead73597d5d2958b26ac0b96f68ca2f6dcee53a50f297e');
CREATE TABLE supersedes (
	fact TEXT NOT NULL, 
	place INTEGER NOT NULL, 
	names TEXT NOT NULL, 
	PRIMARY KEY (fact, place), 
	FOREIGN KEY(fact) REFERENCES fact (id)
);
CREATE TABLE system_card (
	system TEXT NOT NULL, 
	site TEXT, 
	name TEXT NOT NULL, 
	signal TEXT NOT NULL, 
	range TEXT NOT NULL, 
	visits INTEGER NOT NULL, 
	open_visits INTEGER NOT NULL, 
	last TEXT NOT NULL, 
	heads INTEGER NOT NULL, 
	search TEXT NOT NULL, 
	PRIMARY KEY (system)
);
INSERT INTO "system_card" VALUES('00000000000000000000000002','00000000000000000000000001','House pump','0.5..4.5 V ratiometric','0..100 psi',1,1,'0000000000000000000000000M',1,'house pump 0..100 psi 0.5..4.5 v ratiometric 00000000000000000000000001');
CREATE TABLE thumbnail (
	sha256 TEXT NOT NULL, 
	media_type TEXT NOT NULL, 
	bytes BLOB NOT NULL, 
	PRIMARY KEY (sha256), 
	FOREIGN KEY(sha256) REFERENCES blob (sha256) ON DELETE CASCADE
);
CREATE TABLE visit_card (
	visit TEXT NOT NULL, 
	system TEXT, 
	site TEXT, 
	state TEXT NOT NULL, 
	complaint TEXT NOT NULL, 
	started TEXT NOT NULL, 
	last TEXT NOT NULL, 
	last_at TEXT NOT NULL, 
	readings INTEGER NOT NULL, 
	photos INTEGER NOT NULL, 
	heads INTEGER NOT NULL, 
	search TEXT NOT NULL, 
	PRIMARY KEY (visit)
);
INSERT INTO "visit_card" VALUES('00000000000000000000000003','00000000000000000000000002','00000000000000000000000001','open','Relief valve lifting','00000000000000000000000003','0000000000000000000000000M','2026-05-04T07:09:31.250Z',5,1,1,'relief valve lifting image/jpeg fe1a4ab1fb6347036bead73597d5d2958b26ac0b96f68ca2f6dcee53a50f297e ann marlowe');
CREATE INDEX fact_kind ON fact (kind, id);
CREATE INDEX fact_about ON fact (about, id);
CREATE INDEX fact_visit ON fact (visit, id);
CREATE INDEX supersedes_names ON supersedes (names);
CREATE INDEX shown_sha256 ON shown (sha256);
CREATE INDEX entity_kind ON entity (kind, search);
CREATE INDEX visit_card_system ON visit_card (system, last);
CREATE INDEX visit_card_last ON visit_card (last);
CREATE INDEX visit_card_state ON visit_card (state, last);
CREATE INDEX pending_due ON pending (due, about);
CREATE INDEX system_card_last ON system_card (last);
CREATE INDEX system_card_site ON system_card (site);
CREATE TRIGGER guard_fact_update BEFORE UPDATE ON fact WHEN NOT ((NEW.id = OLD.id AND NEW.kind = OLD.kind AND NEW.about = OLD.about AND NEW.at = OLD.at AND NEW.visit IS NOT DISTINCT FROM OLD.visit AND NEW.body = '{}' AND NEW.extra = '{}' AND EXISTS (SELECT 1 FROM purged WHERE target IN (OLD.id, OLD.about, OLD.visit))) OR (NEW.id = OLD.id AND EXISTS (SELECT 1 FROM collision WHERE collision.fact = OLD.id))) BEGIN SELECT RAISE(ABORT, 'a fact is never changed'); END;
CREATE TRIGGER guard_fact_delete BEFORE DELETE ON fact WHEN TRUE BEGIN SELECT RAISE(ABORT, 'a fact is never deleted'); END;
CREATE TRIGGER guard_supersedes_update BEFORE UPDATE ON supersedes WHEN TRUE BEGIN SELECT RAISE(ABORT, 'what a fact replaces is never changed'); END;
CREATE TRIGGER guard_supersedes_delete BEFORE DELETE ON supersedes WHEN NOT EXISTS (SELECT 1 FROM collision WHERE collision.fact = OLD.fact) BEGIN SELECT RAISE(ABORT, 'what a fact replaces is never deleted'); END;
CREATE TRIGGER guard_blob_update BEFORE UPDATE ON blob WHEN TRUE BEGIN SELECT RAISE(ABORT, 'a photo is never changed'); END;
COMMIT;
