-- CreateTable
CREATE TABLE "OutsideTrip" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "jobId" TEXT NOT NULL,
    "work" TEXT NOT NULL,
    "toWhom" TEXT NOT NULL,
    "sentOn" TEXT NOT NULL,
    "dueBackOn" TEXT NOT NULL,
    "sentBy" TEXT NOT NULL,
    "backOn" TEXT,
    "certificate" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    "createdAt" DATETIME NOT NULL,
    CONSTRAINT "OutsideTrip_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
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
    "outsideWork" TEXT NOT NULL DEFAULT '',
    "outsideDays" INTEGER NOT NULL DEFAULT 0,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "createdAt" DATETIME NOT NULL,
    CONSTRAINT "Part_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_Part" ("active", "coded", "createdAt", "customerId", "id", "name", "notes", "number", "returnChance", "traceability", "twoPersons", "version") SELECT "active", "coded", "createdAt", "customerId", "id", "name", "notes", "number", "returnChance", "traceability", "twoPersons", "version" FROM "Part";
DROP TABLE "Part";
ALTER TABLE "new_Part" RENAME TO "Part";
CREATE UNIQUE INDEX "Part_number_key" ON "Part"("number");
CREATE INDEX "Part_customerId_idx" ON "Part"("customerId");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE INDEX "OutsideTrip_jobId_createdAt_idx" ON "OutsideTrip"("jobId", "createdAt");
