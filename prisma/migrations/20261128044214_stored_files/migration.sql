-- CreateTable
CREATE TABLE "StoredFile" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "sha256" TEXT NOT NULL,
    "media" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "widthPx" INTEGER,
    "heightPx" INTEGER,
    "uploadedBy" TEXT,
    "uploadedAt" DATETIME NOT NULL
);

-- CreateTable
CREATE TABLE "FileUse" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "fileId" TEXT NOT NULL,
    "subjectType" TEXT NOT NULL,
    "subjectId" TEXT NOT NULL,
    "usedBy" TEXT,
    "usedAt" DATETIME NOT NULL,
    CONSTRAINT "FileUse_fileId_fkey" FOREIGN KEY ("fileId") REFERENCES "StoredFile" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "StoredFile_sha256_idx" ON "StoredFile"("sha256");

-- CreateIndex
CREATE INDEX "FileUse_fileId_idx" ON "FileUse"("fileId");

-- CreateIndex
CREATE UNIQUE INDEX "FileUse_subjectType_subjectId_fileId_key" ON "FileUse"("subjectType", "subjectId", "fileId");
