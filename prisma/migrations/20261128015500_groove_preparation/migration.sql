-- AlterTable
ALTER TABLE "Weld" ADD COLUMN "preparation" JSONB;
