-- AlterTable
ALTER TABLE "Step" ADD COLUMN "massKg" REAL;
ALTER TABLE "Step" ADD COLUMN "reachMm" REAL;
