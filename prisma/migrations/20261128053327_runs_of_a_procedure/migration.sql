-- CreateIndex
CREATE INDEX "Run_wpsId_startedAt_idx" ON "Run"("wpsId", "startedAt");
