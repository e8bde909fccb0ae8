-- CreateTable
CREATE TABLE "Assignment" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "jobId" TEXT NOT NULL,
    "stepNumber" INTEGER,
    "topic" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "dueOn" TEXT NOT NULL,
    "openedAt" DATETIME NOT NULL,
    "closedAt" DATETIME,
    "closedBy" TEXT,
    "closedAs" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Assignment_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Assignment_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "Assignment_jobId_idx" ON "Assignment"("jobId");

-- CreateIndex
CREATE INDEX "Assignment_closedAt_personId_idx" ON "Assignment"("closedAt", "personId");
