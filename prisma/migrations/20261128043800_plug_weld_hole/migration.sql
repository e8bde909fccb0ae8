-- AlterTable
ALTER TABLE "Weld" ADD COLUMN "holeWidthMm" REAL;
