-- CreateIndex
CREATE INDEX "Job_finishedAt_idx" ON "Job"("finishedAt");

-- CreateIndex
CREATE INDEX "Order_createdAt_idx" ON "Order"("createdAt");
