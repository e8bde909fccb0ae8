-- CreateTable
CREATE TABLE "Person" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "role" TEXT NOT NULL,
    "coordinator" BOOLEAN NOT NULL DEFAULT false,
    "language" TEXT NOT NULL DEFAULT 'en',
    "active" BOOLEAN NOT NULL DEFAULT true,
    "passwordHash" TEXT,
    "pinHash" TEXT,
    "createdAt" DATETIME NOT NULL
);

-- CreateTable
CREATE TABLE "Session" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "tokenHash" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "tabletId" TEXT,
    "startedAt" DATETIME NOT NULL,
    "lastUsedAt" DATETIME NOT NULL,
    "endsAt" DATETIME NOT NULL,
    "revokedAt" DATETIME,
    CONSTRAINT "Session_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Session_tabletId_fkey" FOREIGN KEY ("tabletId") REFERENCES "Tablet" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Tablet" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "name" TEXT NOT NULL,
    "cellId" TEXT NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "registeredAt" DATETIME NOT NULL,
    "registeredBy" TEXT NOT NULL,
    "revokedAt" DATETIME,
    CONSTRAINT "Tablet_cellId_fkey" FOREIGN KEY ("cellId") REFERENCES "Cell" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "SignInAttempt" (
    "key" TEXT NOT NULL PRIMARY KEY,
    "failures" INTEGER NOT NULL,
    "lockedUntil" DATETIME,
    "lastAt" DATETIME NOT NULL
);

-- CreateTable
CREATE TABLE "Certificate" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "personId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "number" TEXT NOT NULL,
    "code" TEXT NOT NULL,
    "edition" TEXT NOT NULL,
    "process" TEXT NOT NULL,
    "cellId" TEXT,
    "jointTypes" JSONB NOT NULL,
    "positions" JSONB NOT NULL,
    "materialGroups" JSONB NOT NULL,
    "fillerGroups" JSONB NOT NULL,
    "thicknessMinMm" REAL,
    "thicknessMaxMm" REAL,
    "diameterMinMm" REAL,
    "diameterMaxMm" REAL,
    "testedOn" TEXT NOT NULL,
    "validUntil" TEXT,
    "renewalRoute" TEXT,
    "examiner" TEXT,
    "functionTestOn" TEXT,
    "revokedOn" TEXT,
    "createdAt" DATETIME NOT NULL,
    CONSTRAINT "Certificate_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Certificate_cellId_fkey" FOREIGN KEY ("cellId") REFERENCES "Cell" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Confirmation" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "certificateId" TEXT NOT NULL,
    "confirmedOn" TEXT NOT NULL,
    "enteredAt" DATETIME NOT NULL,
    "confirmedBy" TEXT NOT NULL,
    "evidence" TEXT NOT NULL,
    CONSTRAINT "Confirmation_certificateId_fkey" FOREIGN KEY ("certificateId") REFERENCES "Certificate" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Customer" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "name" TEXT NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "createdAt" DATETIME NOT NULL
);

-- CreateTable
CREATE TABLE "Part" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "number" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "customerId" TEXT,
    "coded" BOOLEAN NOT NULL DEFAULT false,
    "traceability" TEXT NOT NULL DEFAULT 'batch',
    "returnChance" TEXT NOT NULL DEFAULT 'maybe',
    "notes" TEXT NOT NULL DEFAULT '',
    "active" BOOLEAN NOT NULL DEFAULT true,
    "createdAt" DATETIME NOT NULL,
    CONSTRAINT "Part_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "PartAlias" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "partId" TEXT NOT NULL,
    "customerId" TEXT,
    "alias" TEXT NOT NULL,
    "aliasKey" TEXT NOT NULL,
    CONSTRAINT "PartAlias_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "PartAlias_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Revision" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "partId" TEXT NOT NULL,
    "label" TEXT NOT NULL,
    "drawingNumber" TEXT NOT NULL,
    "drawingPrint" TEXT,
    "state" TEXT NOT NULL DEFAULT 'draft',
    "changeNote" TEXT NOT NULL DEFAULT '',
    "releasedAt" DATETIME,
    "releasedBy" TEXT,
    "createdAt" DATETIME NOT NULL,
    CONSTRAINT "Revision_partId_fkey" FOREIGN KEY ("partId") REFERENCES "Part" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Weld" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "revisionId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "jointType" TEXT NOT NULL,
    "throatMm" REAL,
    "legMm" REAL,
    "grooveDepthMm" REAL,
    "lengthMm" REAL NOT NULL,
    "count" INTEGER NOT NULL DEFAULT 1,
    "thicknessAMm" REAL NOT NULL,
    "thicknessBMm" REAL NOT NULL,
    "materialGroupA" TEXT NOT NULL,
    "materialGroupB" TEXT NOT NULL,
    "materialA" TEXT NOT NULL,
    "materialB" TEXT NOT NULL,
    "position" TEXT NOT NULL,
    "process" TEXT NOT NULL,
    "stepNumber" INTEGER NOT NULL,
    "qualityLevel" TEXT NOT NULL DEFAULT 'C',
    "notes" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Weld_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "Revision" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Step" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "revisionId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "cellKind" TEXT NOT NULL,
    "wpsNumber" TEXT,
    "setUpMin" REAL NOT NULL,
    "firstPieceMin" REAL NOT NULL,
    "unitMin" REAL NOT NULL,
    "startStopS" REAL NOT NULL DEFAULT 1.5,
    "airMovesS" REAL NOT NULL DEFAULT 0,
    "cleaningS" REAL NOT NULL DEFAULT 0,
    "loadS" REAL NOT NULL DEFAULT 0,
    "instructions" TEXT NOT NULL DEFAULT '',
    "holdPoint" BOOLEAN NOT NULL DEFAULT false,
    CONSTRAINT "Step_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "Revision" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "SetUp" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "stepId" TEXT NOT NULL,
    "cellId" TEXT NOT NULL,
    "wireItemId" TEXT,
    "gasItemId" TEXT,
    "torch" TEXT NOT NULL DEFAULT '',
    "mechanisation" TEXT NOT NULL,
    "currentA" REAL,
    "voltageV" REAL,
    "wireSpeedMMin" REAL,
    "travelMmMin" REAL,
    "gasFlowLMin" REAL,
    "contactTipMm" REAL,
    "preheatC" REAL,
    "programId" TEXT,
    "programRevision" TEXT,
    "fixtureId" TEXT,
    "watchOuts" JSONB NOT NULL,
    "photos" JSONB NOT NULL,
    "frozenFromRunId" TEXT,
    "frozenAt" DATETIME NOT NULL,
    "frozenBy" TEXT NOT NULL,
    "current" BOOLEAN NOT NULL DEFAULT true,
    CONSTRAINT "SetUp_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "SetUp_cellId_fkey" FOREIGN KEY ("cellId") REFERENCES "Cell" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "SetUp_wireItemId_fkey" FOREIGN KEY ("wireItemId") REFERENCES "Item" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "SetUp_gasItemId_fkey" FOREIGN KEY ("gasItemId") REFERENCES "Item" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "SetUp_programId_fkey" FOREIGN KEY ("programId") REFERENCES "Program" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "SetUp_fixtureId_fkey" FOREIGN KEY ("fixtureId") REFERENCES "Fixture" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Fixture" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "code" TEXT NOT NULL,
    "place" TEXT NOT NULL,
    "condition" TEXT NOT NULL DEFAULT 'good',
    "notes" TEXT NOT NULL DEFAULT '',
    "lastCheckOn" TEXT
);

-- CreateTable
CREATE TABLE "Program" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "name" TEXT NOT NULL,
    "revision" TEXT NOT NULL,
    "cellId" TEXT NOT NULL,
    "author" TEXT NOT NULL,
    "writtenOn" TEXT NOT NULL,
    "backupPlace" TEXT NOT NULL,
    "print" TEXT,
    "notes" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Program_cellId_fkey" FOREIGN KEY ("cellId") REFERENCES "Cell" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Cell" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "processes" JSONB NOT NULL,
    "mechanisation" TEXT NOT NULL,
    "stations" INTEGER NOT NULL DEFAULT 1,
    "sourceRatingA" REAL,
    "sourceRatingPct" REAL,
    "torchRatingA" REAL,
    "torchRatingPct" REAL,
    "torchMaxA" REAL,
    "torchRatingGas" TEXT,
    "reachMm" REAL,
    "loadKg" REAL,
    "travelUnit" TEXT NOT NULL DEFAULT 'mm/min',
    "planningFactor" REAL NOT NULL DEFAULT 0.8,
    "gasLossFactor" REAL NOT NULL DEFAULT 1,
    "extraction" TEXT NOT NULL DEFAULT '',
    "active" BOOLEAN NOT NULL DEFAULT true,
    "createdAt" DATETIME NOT NULL
);

-- CreateTable
CREATE TABLE "Shift" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cellId" TEXT NOT NULL,
    "weekday" INTEGER NOT NULL,
    "startTime" TEXT NOT NULL,
    "endTime" TEXT NOT NULL,
    "breakMin" INTEGER NOT NULL DEFAULT 0,
    "staffed" BOOLEAN NOT NULL DEFAULT true,
    CONSTRAINT "Shift_cellId_fkey" FOREIGN KEY ("cellId") REFERENCES "Cell" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "DayChange" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cellId" TEXT NOT NULL,
    "day" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "minutes" INTEGER NOT NULL,
    "reason" TEXT NOT NULL,
    CONSTRAINT "DayChange_cellId_fkey" FOREIGN KEY ("cellId") REFERENCES "Cell" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Wpqr" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "number" TEXT NOT NULL,
    "code" TEXT NOT NULL,
    "edition" TEXT NOT NULL,
    "level" TEXT,
    "process" TEXT NOT NULL,
    "mechanisation" TEXT NOT NULL,
    "testedOn" TEXT NOT NULL,
    "examiner" TEXT NOT NULL,
    "testPiece" JSONB NOT NULL,
    "testedValues" JSONB NOT NULL,
    "testResults" JSONB NOT NULL,
    "filler" TEXT NOT NULL,
    "gas" TEXT NOT NULL,
    "transfer" TEXT,
    "ranges" JSONB NOT NULL,
    "fileName" TEXT,
    "createdAt" DATETIME NOT NULL
);

-- CreateTable
CREATE TABLE "Wps" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "number" TEXT NOT NULL,
    "revision" INTEGER NOT NULL,
    "title" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'draft',
    "code" TEXT NOT NULL,
    "ranges" JSONB NOT NULL,
    "joint" JSONB NOT NULL,
    "technique" TEXT NOT NULL DEFAULT '',
    "writtenBy" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "approvedBy" TEXT,
    "approvedAt" DATETIME,
    "supersededAt" DATETIME,
    "changeNote" TEXT NOT NULL DEFAULT ''
);

-- CreateTable
CREATE TABLE "WpsSupport" (
    "wpsId" TEXT NOT NULL,
    "wpqrId" TEXT NOT NULL,

    PRIMARY KEY ("wpsId", "wpqrId"),
    CONSTRAINT "WpsSupport_wpsId_fkey" FOREIGN KEY ("wpsId") REFERENCES "Wps" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "WpsSupport_wpqrId_fkey" FOREIGN KEY ("wpqrId") REFERENCES "Wpqr" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Order" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "number" INTEGER NOT NULL,
    "customerId" TEXT NOT NULL,
    "customerNumber" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "createdBy" TEXT NOT NULL,
    CONSTRAINT "Order_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Job" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "number" INTEGER NOT NULL,
    "orderId" TEXT NOT NULL,
    "lineNumber" INTEGER NOT NULL,
    "revisionId" TEXT NOT NULL,
    "orderedRevision" TEXT NOT NULL,
    "quantity" INTEGER NOT NULL,
    "dueOn" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'waiting',
    "released" BOOLEAN NOT NULL DEFAULT false,
    "holdReason" TEXT,
    "pastDueReason" TEXT,
    "createdAt" DATETIME NOT NULL,
    "finishedAt" DATETIME,
    CONSTRAINT "Job_orderId_fkey" FOREIGN KEY ("orderId") REFERENCES "Order" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Job_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "Revision" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "JobStep" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "jobId" TEXT NOT NULL,
    "stepId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "cellId" TEXT NOT NULL,
    "state" TEXT NOT NULL DEFAULT 'waiting',
    "rank" REAL NOT NULL,
    "plannedMin" REAL NOT NULL,
    "kitComplete" BOOLEAN NOT NULL DEFAULT true,
    "wpsId" TEXT,
    "goodCount" INTEGER NOT NULL DEFAULT 0,
    "scrapCount" INTEGER NOT NULL DEFAULT 0,
    "doneAt" DATETIME,
    CONSTRAINT "JobStep_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "JobStep_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "JobStep_cellId_fkey" FOREIGN KEY ("cellId") REFERENCES "Cell" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Holding" (
    "jobStepId" TEXT NOT NULL PRIMARY KEY,
    "cellId" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "runId" TEXT NOT NULL,
    "since" DATETIME NOT NULL,
    CONSTRAINT "Holding_jobStepId_fkey" FOREIGN KEY ("jobStepId") REFERENCES "JobStep" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Holding_cellId_fkey" FOREIGN KEY ("cellId") REFERENCES "Cell" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Holding_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Run" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "jobStepId" TEXT NOT NULL,
    "cellId" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "wpsId" TEXT,
    "startedAt" DATETIME NOT NULL,
    "endedAt" DATETIME,
    "goodCount" INTEGER NOT NULL DEFAULT 0,
    "reworkCount" INTEGER NOT NULL DEFAULT 0,
    "scrapCount" INTEGER NOT NULL DEFAULT 0,
    "setUpMin" REAL NOT NULL DEFAULT 0,
    "arcSPerPart" REAL NOT NULL,
    "arcS" REAL NOT NULL DEFAULT 0,
    "arcSource" TEXT NOT NULL DEFAULT 'counted',
    "handOverNote" TEXT,
    CONSTRAINT "Run_jobStepId_fkey" FOREIGN KEY ("jobStepId") REFERENCES "JobStep" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Run_cellId_fkey" FOREIGN KEY ("cellId") REFERENCES "Cell" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Run_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "RunCount" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "runId" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "happenedAt" DATETIME NOT NULL,
    "good" INTEGER NOT NULL,
    "rework" INTEGER NOT NULL,
    "scrap" INTEGER NOT NULL,
    "personId" TEXT NOT NULL,
    CONSTRAINT "RunCount_runId_fkey" FOREIGN KEY ("runId") REFERENCES "Run" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Stop" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "runId" TEXT NOT NULL,
    "cause" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "startedAt" DATETIME NOT NULL,
    "endedAt" DATETIME,
    CONSTRAINT "Stop_runId_fkey" FOREIGN KEY ("runId") REFERENCES "Run" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Reading" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "runId" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "happenedAt" DATETIME NOT NULL,
    "weldNumber" INTEGER,
    "currentA" REAL,
    "voltageV" REAL,
    "wireSpeedMMin" REAL,
    "travelMmMin" REAL,
    "preheatC" REAL,
    "interpassC" REAL,
    "instrument" TEXT,
    "place" TEXT,
    "result" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    CONSTRAINT "Reading_runId_fkey" FOREIGN KEY ("runId") REFERENCES "Run" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Item" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "kind" TEXT NOT NULL,
    "designation" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "wireDiameterMm" REAL,
    "unit" TEXT NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true
);

-- CreateTable
CREATE TABLE "Lot" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "itemId" TEXT NOT NULL,
    "number" TEXT NOT NULL,
    "receivedOn" TEXT NOT NULL,
    "certificate" TEXT,
    "receivedAmount" REAL NOT NULL,
    "leftAmount" REAL NOT NULL,
    CONSTRAINT "Lot_itemId_fkey" FOREIGN KEY ("itemId") REFERENCES "Item" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "LotLoad" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "lotId" TEXT NOT NULL,
    "cellId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "loadedAt" DATETIME NOT NULL,
    "unloadedAt" DATETIME,
    "loadedAmount" REAL NOT NULL,
    "leftAmount" REAL NOT NULL,
    "loadedBy" TEXT NOT NULL,
    CONSTRAINT "LotLoad_lotId_fkey" FOREIGN KEY ("lotId") REFERENCES "Lot" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "LotLoad_cellId_fkey" FOREIGN KEY ("cellId") REFERENCES "Cell" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Override" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "jobId" TEXT NOT NULL,
    "jobStepId" TEXT,
    "rule" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "forPerson" TEXT,
    "signedAt" DATETIME NOT NULL,
    "expiresAt" DATETIME NOT NULL,
    CONSTRAINT "Override_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Nonconformance" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "number" INTEGER NOT NULL,
    "jobId" TEXT NOT NULL,
    "runId" TEXT,
    "weldNumber" INTEGER,
    "defect" TEXT NOT NULL,
    "quantity" INTEGER NOT NULL,
    "description" TEXT NOT NULL DEFAULT '',
    "raisedBy" TEXT NOT NULL,
    "raisedAt" DATETIME NOT NULL,
    "disposition" TEXT,
    "decidedBy" TEXT,
    "decidedAt" DATETIME,
    "closedAt" DATETIME,
    CONSTRAINT "Nonconformance_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Instrument" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "code" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "dueOn" TEXT NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true
);

-- CreateTable
CREATE TABLE "Event" (
    "seq" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "at" DATETIME NOT NULL,
    "type" TEXT NOT NULL,
    "actorId" TEXT,
    "deviceId" TEXT,
    "requestId" TEXT,
    "subjectType" TEXT NOT NULL,
    "subjectId" TEXT NOT NULL,
    "subjectVersion" INTEGER,
    "cellId" TEXT,
    "before" JSONB,
    "after" JSONB,
    "reason" TEXT,
    "meaning" TEXT
);

-- CreateTable
CREATE TABLE "Command" (
    "key" TEXT NOT NULL PRIMARY KEY,
    "routeId" TEXT NOT NULL,
    "digest" TEXT NOT NULL,
    "answer" JSONB NOT NULL,
    "storedAt" DATETIME NOT NULL
);

-- CreateTable
CREATE TABLE "Task" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "kind" TEXT NOT NULL,
    "payload" JSONB NOT NULL,
    "dueAt" DATETIME NOT NULL,
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "doneAt" DATETIME,
    "error" TEXT
);

-- CreateTable
CREATE TABLE "Counter" (
    "name" TEXT NOT NULL PRIMARY KEY,
    "value" INTEGER NOT NULL
);

-- CreateTable
CREATE TABLE "Setting" (
    "name" TEXT NOT NULL PRIMARY KEY,
    "value" JSONB NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateIndex
CREATE UNIQUE INDEX "Person_code_key" ON "Person"("code");

-- CreateIndex
CREATE UNIQUE INDEX "Session_tokenHash_key" ON "Session"("tokenHash");

-- CreateIndex
CREATE INDEX "Session_personId_idx" ON "Session"("personId");

-- CreateIndex
CREATE UNIQUE INDEX "Tablet_tokenHash_key" ON "Tablet"("tokenHash");

-- CreateIndex
CREATE INDEX "Certificate_personId_idx" ON "Certificate"("personId");

-- CreateIndex
CREATE INDEX "Confirmation_certificateId_idx" ON "Confirmation"("certificateId");

-- CreateIndex
CREATE UNIQUE INDEX "Customer_name_key" ON "Customer"("name");

-- CreateIndex
CREATE UNIQUE INDEX "Part_number_key" ON "Part"("number");

-- CreateIndex
CREATE INDEX "Part_customerId_idx" ON "Part"("customerId");

-- CreateIndex
CREATE INDEX "PartAlias_aliasKey_idx" ON "PartAlias"("aliasKey");

-- CreateIndex
CREATE INDEX "PartAlias_partId_idx" ON "PartAlias"("partId");

-- CreateIndex
CREATE UNIQUE INDEX "PartAlias_aliasKey_partId_key" ON "PartAlias"("aliasKey", "partId");

-- CreateIndex
CREATE UNIQUE INDEX "Revision_partId_label_key" ON "Revision"("partId", "label");

-- CreateIndex
CREATE UNIQUE INDEX "Weld_revisionId_number_key" ON "Weld"("revisionId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "Step_revisionId_number_key" ON "Step"("revisionId", "number");

-- CreateIndex
CREATE INDEX "SetUp_stepId_cellId_current_idx" ON "SetUp"("stepId", "cellId", "current");

-- CreateIndex
CREATE UNIQUE INDEX "Fixture_code_key" ON "Fixture"("code");

-- CreateIndex
CREATE UNIQUE INDEX "Program_name_revision_cellId_key" ON "Program"("name", "revision", "cellId");

-- CreateIndex
CREATE UNIQUE INDEX "Cell_code_key" ON "Cell"("code");

-- CreateIndex
CREATE INDEX "Shift_cellId_idx" ON "Shift"("cellId");

-- CreateIndex
CREATE INDEX "DayChange_cellId_day_idx" ON "DayChange"("cellId", "day");

-- CreateIndex
CREATE UNIQUE INDEX "Wpqr_number_key" ON "Wpqr"("number");

-- CreateIndex
CREATE INDEX "Wps_number_state_idx" ON "Wps"("number", "state");

-- CreateIndex
CREATE UNIQUE INDEX "Wps_number_revision_key" ON "Wps"("number", "revision");

-- CreateIndex
CREATE UNIQUE INDEX "Order_number_key" ON "Order"("number");

-- CreateIndex
CREATE INDEX "Order_customerId_idx" ON "Order"("customerId");

-- CreateIndex
CREATE UNIQUE INDEX "Job_number_key" ON "Job"("number");

-- CreateIndex
CREATE INDEX "Job_revisionId_createdAt_idx" ON "Job"("revisionId", "createdAt");

-- CreateIndex
CREATE INDEX "Job_state_dueOn_idx" ON "Job"("state", "dueOn");

-- CreateIndex
CREATE INDEX "Job_orderId_idx" ON "Job"("orderId");

-- CreateIndex
CREATE INDEX "JobStep_cellId_state_rank_idx" ON "JobStep"("cellId", "state", "rank");

-- CreateIndex
CREATE UNIQUE INDEX "JobStep_jobId_number_key" ON "JobStep"("jobId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "Holding_cellId_key" ON "Holding"("cellId");

-- CreateIndex
CREATE UNIQUE INDEX "Holding_runId_key" ON "Holding"("runId");

-- CreateIndex
CREATE INDEX "Run_cellId_startedAt_idx" ON "Run"("cellId", "startedAt");

-- CreateIndex
CREATE INDEX "Run_jobStepId_idx" ON "Run"("jobStepId");

-- CreateIndex
CREATE INDEX "Run_personId_startedAt_idx" ON "Run"("personId", "startedAt");

-- CreateIndex
CREATE INDEX "RunCount_runId_idx" ON "RunCount"("runId");

-- CreateIndex
CREATE INDEX "Stop_runId_idx" ON "Stop"("runId");

-- CreateIndex
CREATE INDEX "Reading_runId_idx" ON "Reading"("runId");

-- CreateIndex
CREATE UNIQUE INDEX "Item_kind_name_key" ON "Item"("kind", "name");

-- CreateIndex
CREATE UNIQUE INDEX "Lot_itemId_number_key" ON "Lot"("itemId", "number");

-- CreateIndex
CREATE INDEX "LotLoad_cellId_kind_unloadedAt_idx" ON "LotLoad"("cellId", "kind", "unloadedAt");

-- CreateIndex
CREATE INDEX "Override_jobId_idx" ON "Override"("jobId");

-- CreateIndex
CREATE UNIQUE INDEX "Nonconformance_number_key" ON "Nonconformance"("number");

-- CreateIndex
CREATE INDEX "Nonconformance_jobId_idx" ON "Nonconformance"("jobId");

-- CreateIndex
CREATE UNIQUE INDEX "Instrument_code_key" ON "Instrument"("code");

-- CreateIndex
CREATE INDEX "Event_subjectType_subjectId_seq_idx" ON "Event"("subjectType", "subjectId", "seq");

-- CreateIndex
CREATE INDEX "Command_storedAt_idx" ON "Command"("storedAt");

-- CreateIndex
CREATE INDEX "Task_doneAt_dueAt_idx" ON "Task"("doneAt", "dueAt");

-- What has happened is never changed: the log takes new rows and nothing else.
CREATE TRIGGER "Event_no_update" BEFORE UPDATE ON "Event" BEGIN SELECT RAISE(ABORT, 'events are append-only'); END;
CREATE TRIGGER "Event_no_delete" BEFORE DELETE ON "Event" BEGIN SELECT RAISE(ABORT, 'events are append-only'); END;
