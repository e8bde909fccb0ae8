-- AlterTable
ALTER TABLE "Step" ADD COLUMN "witnessMin" INTEGER;

-- AlterTable
ALTER TABLE "Weld" ADD COLUMN "sizeOverMm" REAL;
ALTER TABLE "Weld" ADD COLUMN "sizeUnderMm" REAL;

-- CreateTable
CREATE TABLE "FirstPiece" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "jobStepId" TEXT NOT NULL,
    "runId" TEXT NOT NULL,
    "scope" TEXT NOT NULL,
    "reasons" JSONB NOT NULL,
    "sizes" JSONB NOT NULL,
    "visual" TEXT NOT NULL,
    "imperfections" JSONB NOT NULL,
    "qualityLevel" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "result" TEXT NOT NULL,
    "signedBy" TEXT NOT NULL,
    "signedAt" DATETIME NOT NULL,
    "qaSignedBy" TEXT,
    "qaSignedAt" DATETIME,
    "qaNote" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "FirstPiece_jobStepId_fkey" FOREIGN KEY ("jobStepId") REFERENCES "JobStep" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "FirstPiece_runId_fkey" FOREIGN KEY ("runId") REFERENCES "Run" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "InspectionPoint" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "jobStepId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "openedAt" DATETIME NOT NULL,
    "dueAt" DATETIME,
    "result" TEXT,
    "closedBy" TEXT,
    "closedAt" DATETIME,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "InspectionPoint_jobStepId_fkey" FOREIGN KEY ("jobStepId") REFERENCES "JobStep" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "JobHold" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "jobId" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "placedBy" TEXT NOT NULL,
    "placedAt" DATETIME NOT NULL,
    "liftedBy" TEXT,
    "liftedAt" DATETIME,
    "liftReason" TEXT,
    CONSTRAINT "JobHold_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "NcrDecision" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "ncrId" TEXT NOT NULL,
    "disposition" TEXT NOT NULL,
    "quantity" INTEGER NOT NULL,
    "wpsId" TEXT,
    "concession" TEXT,
    "reason" TEXT NOT NULL,
    "decidedBy" TEXT NOT NULL,
    "decidedAt" DATETIME NOT NULL,
    "accepted" INTEGER,
    "inspectedBy" TEXT,
    "inspectedAt" DATETIME,
    "inspectNote" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "NcrDecision_ncrId_fkey" FOREIGN KEY ("ncrId") REFERENCES "Nonconformance" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_JobStep" (
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
    "quarantinedCount" INTEGER NOT NULL DEFAULT 0,
    "doneAt" DATETIME,
    CONSTRAINT "JobStep_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "JobStep_stepId_fkey" FOREIGN KEY ("stepId") REFERENCES "Step" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "JobStep_cellId_fkey" FOREIGN KEY ("cellId") REFERENCES "Cell" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_JobStep" ("cellId", "doneAt", "goodCount", "id", "jobId", "kitComplete", "number", "plannedMin", "rank", "scrapCount", "state", "stepId", "version", "wpsId") SELECT "cellId", "doneAt", "goodCount", "id", "jobId", "kitComplete", "number", "plannedMin", "rank", "scrapCount", "state", "stepId", "version", "wpsId" FROM "JobStep";
DROP TABLE "JobStep";
ALTER TABLE "new_JobStep" RENAME TO "JobStep";
CREATE INDEX "JobStep_cellId_state_rank_idx" ON "JobStep"("cellId", "state", "rank");
CREATE UNIQUE INDEX "JobStep_jobId_number_key" ON "JobStep"("jobId", "number");
CREATE TABLE "new_Nonconformance" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "number" INTEGER NOT NULL,
    "jobId" TEXT NOT NULL,
    "jobStepId" TEXT,
    "runId" TEXT,
    "weldNumber" INTEGER,
    "defect" TEXT NOT NULL,
    "quantity" INTEGER NOT NULL,
    "description" TEXT NOT NULL DEFAULT '',
    "raisedBy" TEXT NOT NULL,
    "raisedAt" DATETIME NOT NULL,
    "closedBy" TEXT,
    "closedAt" DATETIME,
    "closeNote" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Nonconformance_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Nonconformance_jobStepId_fkey" FOREIGN KEY ("jobStepId") REFERENCES "JobStep" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_Nonconformance" ("closedAt", "defect", "description", "id", "jobId", "number", "quantity", "raisedAt", "raisedBy", "runId", "version", "weldNumber") SELECT "closedAt", "defect", "description", "id", "jobId", "number", "quantity", "raisedAt", "raisedBy", "runId", "version", "weldNumber" FROM "Nonconformance";
DROP TABLE "Nonconformance";
ALTER TABLE "new_Nonconformance" RENAME TO "Nonconformance";
CREATE UNIQUE INDEX "Nonconformance_number_key" ON "Nonconformance"("number");
CREATE INDEX "Nonconformance_jobId_idx" ON "Nonconformance"("jobId");
CREATE INDEX "Nonconformance_closedAt_idx" ON "Nonconformance"("closedAt");
CREATE TABLE "new_Part" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "number" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "customerId" TEXT,
    "coded" BOOLEAN NOT NULL DEFAULT false,
    "traceability" TEXT NOT NULL DEFAULT 'batch',
    "returnChance" TEXT NOT NULL DEFAULT 'maybe',
    "twoPersons" BOOLEAN NOT NULL DEFAULT false,
    "notes" TEXT NOT NULL DEFAULT '',
    "active" BOOLEAN NOT NULL DEFAULT true,
    "createdAt" DATETIME NOT NULL,
    CONSTRAINT "Part_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_Part" ("active", "coded", "createdAt", "customerId", "id", "name", "notes", "number", "returnChance", "traceability", "version") SELECT "active", "coded", "createdAt", "customerId", "id", "name", "notes", "number", "returnChance", "traceability", "version" FROM "Part";
DROP TABLE "Part";
ALTER TABLE "new_Part" RENAME TO "Part";
CREATE UNIQUE INDEX "Part_number_key" ON "Part"("number");
CREATE INDEX "Part_customerId_idx" ON "Part"("customerId");
CREATE TABLE "new_Run" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "jobStepId" TEXT NOT NULL,
    "cellId" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "wpsId" TEXT,
    "setUpId" TEXT,
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
    CONSTRAINT "Run_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Run_setUpId_fkey" FOREIGN KEY ("setUpId") REFERENCES "SetUp" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_Run" ("arcS", "arcSPerPart", "arcSource", "cellId", "endedAt", "goodCount", "handOverNote", "id", "jobStepId", "personId", "reworkCount", "scrapCount", "setUpMin", "startedAt", "version", "wpsId") SELECT "arcS", "arcSPerPart", "arcSource", "cellId", "endedAt", "goodCount", "handOverNote", "id", "jobStepId", "personId", "reworkCount", "scrapCount", "setUpMin", "startedAt", "version", "wpsId" FROM "Run";
DROP TABLE "Run";
ALTER TABLE "new_Run" RENAME TO "Run";
CREATE INDEX "Run_cellId_startedAt_idx" ON "Run"("cellId", "startedAt");
CREATE INDEX "Run_jobStepId_idx" ON "Run"("jobStepId");
CREATE INDEX "Run_personId_startedAt_idx" ON "Run"("personId", "startedAt");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE INDEX "FirstPiece_jobStepId_idx" ON "FirstPiece"("jobStepId");

-- CreateIndex
CREATE INDEX "FirstPiece_runId_idx" ON "FirstPiece"("runId");

-- CreateIndex
CREATE INDEX "FirstPiece_result_idx" ON "FirstPiece"("result");

-- CreateIndex
CREATE INDEX "InspectionPoint_jobStepId_idx" ON "InspectionPoint"("jobStepId");

-- CreateIndex
CREATE INDEX "InspectionPoint_result_idx" ON "InspectionPoint"("result");

-- CreateIndex
CREATE INDEX "JobHold_jobId_liftedAt_idx" ON "JobHold"("jobId", "liftedAt");

-- CreateIndex
CREATE INDEX "NcrDecision_ncrId_idx" ON "NcrDecision"("ncrId");
