-- AlterTable
ALTER TABLE "Run" ADD COLUMN "closedOutAt" DATETIME;
ALTER TABLE "Run" ADD COLUMN "programAtClose" TEXT;
ALTER TABLE "Run" ADD COLUMN "programAtStart" TEXT;
ALTER TABLE "Run" ADD COLUMN "watchOuts" JSONB;

-- CreateTable
CREATE TABLE "RunChange" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "runId" TEXT NOT NULL,
    "jobStepId" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "variable" TEXT NOT NULL,
    "fromValue" TEXT,
    "toValue" TEXT NOT NULL,
    "why" TEXT NOT NULL,
    "result" TEXT NOT NULL,
    "afterPart" INTEGER NOT NULL,
    "personId" TEXT NOT NULL,
    CONSTRAINT "RunChange_runId_fkey" FOREIGN KEY ("runId") REFERENCES "Run" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "ToolPointEntry" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cellId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "good" BOOLEAN,
    "note" TEXT NOT NULL DEFAULT '',
    "at" DATETIME NOT NULL,
    "personId" TEXT NOT NULL,
    CONSTRAINT "ToolPointEntry_cellId_fkey" FOREIGN KEY ("cellId") REFERENCES "Cell" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "RunChange_jobStepId_at_idx" ON "RunChange"("jobStepId", "at");

-- CreateIndex
CREATE INDEX "RunChange_runId_idx" ON "RunChange"("runId");

-- CreateIndex
CREATE INDEX "ToolPointEntry_cellId_at_idx" ON "ToolPointEntry"("cellId", "at");
