-- AlterTable
ALTER TABLE "Wps" ADD COLUMN "details" JSONB;
