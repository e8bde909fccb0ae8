-- AlterTable
ALTER TABLE "SetUp" DROP COLUMN "photos";

-- AlterTable
ALTER TABLE "Wpqr" DROP COLUMN "fileName";
